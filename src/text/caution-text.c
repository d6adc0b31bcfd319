/* SPDX-License-Identifier: GPL-3.0-or-later */
/* caution-text.c: the signs asked about, what to do about them, and how a caution was closed. */
#include "text/face-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/text.h"

const char *
carpace_text_sign_question (CarpaceSign sign)
{
  switch (sign)
    {
    case CARPACE_SIGN_INJURY: return _("Was the hand or arm injured in the last week, by a fall, a blow or a twist?");
    case CARPACE_SIGN_DEFORMED: return _("Does a finger, the hand or the wrist look misshapen?");
    case CARPACE_SIGN_CANNOT_MOVE: return _("Is there a part of the hand or arm that you cannot move?");
    case CARPACE_SIGN_COLD_OR_PALE: return _("Are fingers icy cold, pale or blue?");
    case CARPACE_SIGN_HOT_AND_FEVERISH: return _("Is there a hot, red swelling, or a swelling with fever?");
    case CARPACE_SIGN_NUMB: return _("Is there numbness, or pins and needles?");
    case CARPACE_SIGN_NIGHT_PAIN: return _("Does discomfort wake you at night?");
    case CARPACE_SIGN_DROPPING_THINGS: return _("Do things drop from your hand?");
    case CARPACE_SIGN_WEAK: return _("Is the hand or arm weaker than usual?");
    case CARPACE_SIGN_LOCKING: return _("Does a finger or the wrist lock or catch?");
    case CARPACE_SIGN_SWOLLEN: return _("Is there any other swelling?");
    case CARPACE_SIGN_NOT_BETTER: return _("Is discomfort no better after two weeks of less load?");
    case CARPACE_N_SIGNS: break;
    }
  return "";
}

bool
carpace_sign_same_day (CarpaceSign sign)
{
  return sign <= CARPACE_SIGN_HOT_AND_FEVERISH;
}

static bool
any_same_day (uint32_t signs)
{
  for (int32_t sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if ((signs & (1u << sign)) && carpace_sign_same_day ((CarpaceSign) sign))
      return true;
  return false;
}

const char *
carpace_text_signs_advice (uint32_t signs)
{
  if (any_same_day (signs))
    return _("Stop, and let a doctor see it today.");
  return _("Practice stops here. Let a physiotherapist or doctor see it before more practice.");
}

char *
carpace_text_closed_how (const CarpaceEntry *closed)
{
  const CarpaceClosing *closing = &closed->caution.closing;
  g_autofree char *date = closing->on != 0 ? carpace_text_day (closing->on) : NULL;
  const char *how = closed->caution.how == CARPACE_CAUTION_GONE      ? _("gone, three days on")
                    : closing->by == CARPACE_SEEN_BY_PHYSIOTHERAPIST ? _("seen by a physiotherapist")
                    : closing->by == CARPACE_SEEN_BY_DOCTOR          ? _("seen by a doctor")
                                                                     : _("seen");

  return date != NULL ? g_strdup_printf (_("%s, %s"), how, date) : g_strdup (how);
}

const char *
carpace_text_after_caution (void)
{
  return _("Practice begins again, shorter, the practice day after the caution is closed.");
}

static char *
why_open (const CarpaceEntry *opened)
{
  g_autofree char *signs = carpace_text_signs (opened->caution.signs);

  return g_strdup_printf (_("A caution is open: %s. %s"), signs, carpace_text_after_caution ());
}

char *
carpace_text_why_caution (const CarpaceEntry *said)
{
  int64_t before_ms = said->caution.before_ms, after_ms = said->caution.after_ms;
  g_autofree char *how = carpace_text_closed_how (said);
  g_autofree char *before = carpace_text_duration (before_ms);
  g_autofree char *after = carpace_text_duration (after_ms);
  g_autofree char *first = carpace_text_duration (said->caution.first_dose_ms);

  if (said->caution.what == CARPACE_CAUTION_OPENED)
    return why_open (said);
  if (after_ms <= 0)
    return NULL;
  if (after_ms >= before_ms)
    return g_strdup_printf (_("The caution was closed (%s): practice goes on the next practice day with %s, as until then."),
                            how, after);
  if (after_ms == said->caution.closing.dose_ms)
    return g_strdup_printf (_("The caution was closed (%s): practice goes on the next practice day with %s instead of %s, the most that was allowed to begin with; settled days lead up from there."),
                            how, after, before);
  if (after_ms == said->caution.first_dose_ms / 2)
    return g_strdup_printf (_("The caution was closed (%s): practice goes on the next practice day with %s instead of %s, half of the plan's %s."),
                            how, after, before, first);
  return g_strdup_printf (_("The caution was closed (%s): practice goes on the next practice day with %s instead of %s."), how,
                          after, before);
}

const char *
carpace_text_tell_a_parent (CarpaceAge age)
{
  switch (age)
    {
    case CARPACE_AGE_UNDER_16: return _("Tell a parent or guardian, too.");
    case CARPACE_AGE_NOT_SAID: return _("If you are under 16, tell a parent or guardian, too.");
    case CARPACE_AGE_16_OR_OVER:
    case CARPACE_N_AGES: break;
    }
  return "";
}

const char *
carpace_text_cautions_first (void)
{
  return _("Cautions first: any of these today? Answer on the card; a second start begins with them unanswered.");
}
