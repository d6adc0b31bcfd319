/* SPDX-License-Identifier: GPL-3.0-or-later */
/* first-text.c: what is asked before the first practice, and what comes of it. */
#include "text/first-text.h"

#include <glib/gi18n.h>

#include "text/duration.h"

const char *
carpace_text_once (CarpaceOnce once)
{
  switch (once)
    {
    case CARPACE_ONCE_BLOOD_THINNERS: return _("Blood thinners");
    case CARPACE_ONCE_BROKEN_SKIN: return _("Broken skin on hand or arm");
    case CARPACE_ONCE_INJURY_OR_OPERATION: return _("Hand or arm injured or operated on, in the last 12 weeks");
    case CARPACE_N_ONCES: break;
    }
  return "";
}

const char *
carpace_text_once_follows (uint32_t once)
{
  if (once & 1u << CARPACE_ONCE_INJURY_OR_OPERATION)
    return _("Rests show no stretch and no self-massage. Ask whoever treats it before you practise.");
  return once != 0 ? _("Rests show no self-massage.") : "";
}

const char *
carpace_text_grip (CarpaceGrip grip)
{
  switch (grip)
    {
    case CARPACE_GRIP_PALM: return _("Palm");
    case CARPACE_GRIP_CLAW: return _("Claw");
    case CARPACE_GRIP_FINGERTIP: return _("Fingertips");
    case CARPACE_N_GRIPS: break;
    }
  return "";
}

char *
carpace_text_first (const CarpaceFirstAnswers *answers, const CarpaceFirstProposal *proposal)
{
  g_autofree char *sitting = carpace_text_duration (answers->sitting_ms);
  g_autofree char *fits = carpace_text_duration (proposal->fits_ms);

  switch (proposal->outcome)
    {
    case CARPACE_FIRST_CAUTION: return g_strdup (_("Practice stops here today."));
    case CARPACE_FIRST_ASK_CAUTIONS: return g_strdup (_("Still to answer: the cautions."));
    case CARPACE_FIRST_ASK_ONCE: return g_strdup (_("Still to answer: any of these?"));
    case CARPACE_FIRST_ASK_AGE: return g_strdup (_("Still to answer: your age."));
    case CARPACE_FIRST_ASK_ADULT: return g_strdup (_("Under 16, a parent or guardian has to agree first."));
    case CARPACE_FIRST_ASK_DISCOMFORT: return g_strdup (_("Still to answer: usual discomfort."));
    case CARPACE_FIRST_ASK_SITTING: return g_strdup (_("Still to answer: a comfortable sitting today."));
    case CARPACE_FIRST_ABOVE_STOP:
      return g_strdup_printf (_("With a usual discomfort of %d, practice waits: let a physiotherapist or doctor see your hand first."),
                              (int) answers->usual_discomfort);
    case CARPACE_FIRST_NO_PLAN: return g_strdup (_("There is no block plan to propose here; choose one with “carpace plan use NAME”."));
    case CARPACE_FIRST_UNDER_16: return g_strdup (_("The mildest plan there is, because you are under 16."));
    case CARPACE_FIRST_DISCOMFORT:
      return g_strdup_printf (_("The mildest plan there is, because %d is usual: ask a physiotherapist or doctor about it."),
                              (int) answers->usual_discomfort);
    case CARPACE_FIRST_SHORTENED:
      return g_strdup_printf (_("%s is comfortable, so its blocks are shortened to four fifths of that: %s."), sitting, fits);
    case CARPACE_FIRST_FITS:
      return g_strdup_printf (_("%s is comfortable: the mildest plan with blocks within four fifths of that, %s."), sitting, fits);
    case CARPACE_N_FIRSTS: break;
    }
  return g_strdup ("");
}

char *
carpace_text_first_plan (const CarpacePlan *copy)
{
  g_autofree char *dose = carpace_text_duration (copy->dose_ms);
  g_autofree char *longest = carpace_text_duration (carpace_plan_longest_limit_ms (copy));

  return g_strdup_printf (_("%s: %s a day, no block longer than %s"), copy->name, dose, longest);
}

void
carpace_text_first_begun (const CarpaceView *view, CarpaceNotice *ret_notice)
{
  g_autofree char *limit = carpace_text_duration (view->limit_ms);

  *ret_notice = (CarpaceNotice) { .cue = CARPACE_CUE_UNSTARTED, .passes = true };
  ret_notice->title = g_strdup_printf (_("Block %d has begun: %s"), view->block, limit);
  ret_notice->body = g_strdup (_("Practise. Carpace is in the tray and speaks up in gaps; its menu ends the block, or binds practice to one window."));
}
