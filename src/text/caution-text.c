/* SPDX-License-Identifier: GPL-3.0-or-later */
/* caution-text.c: the signs asked about, and what to do about them. */
#include "text/face-text.h"

#include <glib/gi18n.h>

const char *
carpace_text_sign_question (CarpaceSign sign)
{
  switch (sign)
    {
    case CARPACE_SIGN_INJURY: return _("Was the hand or arm injured in the last week, by a fall, a blow or a twist?");
    case CARPACE_SIGN_DEFORMED: return _("Does a finger, the hand or the wrist look misshapen?");
    case CARPACE_SIGN_CANNOT_MOVE: return _("Is there a part of the hand or arm that you cannot move?");
    case CARPACE_SIGN_COLD_OR_PALE: return _("Are fingers icy cold, pale or blue?");
    case CARPACE_SIGN_HOT_AND_FEVERISH: return _("Is there a hot swelling, and do you feel feverish?");
    case CARPACE_SIGN_NUMB: return _("Is there numbness, or pins and needles?");
    case CARPACE_SIGN_NIGHT_PAIN: return _("Does it wake you at night?");
    case CARPACE_SIGN_DROPPING_THINGS: return _("Do things drop from your hand?");
    case CARPACE_SIGN_WEAK: return _("Is the hand or arm weaker than usual?");
    case CARPACE_SIGN_LOCKING: return _("Does a finger or the wrist lock or catch?");
    case CARPACE_SIGN_SWOLLEN: return _("Is there a swelling?");
    case CARPACE_SIGN_NOT_BETTER: return _("Is it no better after two weeks of less load?");
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
