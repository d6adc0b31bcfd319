/* SPDX-License-Identifier: GPL-3.0-or-later */
/* text-names.c: names of closed sets, for people. */
#include "text/text.h"

#include <glib.h>
#include <glib/gi18n.h>

/* "" would give the translation's header. */
#define NAME_OF(table, value) \
  ((size_t) (value) < G_N_ELEMENTS (table) && (table)[value] ? _((table)[value]) : "")

static const char *const signs[CARPACE_N_SIGNS] = {
  [CARPACE_SIGN_INJURY] = N_("An injury within the last week"),
  [CARPACE_SIGN_DEFORMED] = N_("The hand or a finger looks misshapen"),
  [CARPACE_SIGN_CANNOT_MOVE] = N_("The hand or a finger cannot be moved"),
  [CARPACE_SIGN_COLD_OR_PALE] = N_("Fingers icy cold, pale or blue"),
  [CARPACE_SIGN_HOT_AND_FEVERISH] = N_("A hot, red swelling, or one with fever"),
  [CARPACE_SIGN_NUMB] = N_("Numbness, or pins and needles"),
  [CARPACE_SIGN_NIGHT_PAIN] = N_("Discomfort that wakes you at night"),
  [CARPACE_SIGN_DROPPING_THINGS] = N_("Dropping things"),
  [CARPACE_SIGN_WEAK] = N_("The hand is weaker than usual"),
  [CARPACE_SIGN_LOCKING] = N_("A finger or a joint locks"),
  [CARPACE_SIGN_SWOLLEN] = N_("Swelling"),
  [CARPACE_SIGN_NOT_BETTER] = N_("Not better after two weeks of less load"),
};
static const char *const stiffnesses[CARPACE_N_STIFFNESSES] = {
  [CARPACE_STIFFNESS_UNSAID] = N_("not answered"),
  [CARPACE_STIFFNESS_LESS] = N_("less than usual"),
  [CARPACE_STIFFNESS_USUAL] = N_("as usual"),
  [CARPACE_STIFFNESS_MORE] = N_("more than usual"),
};
static const char *const movements[CARPACE_N_MOVEMENTS] = {
  [CARPACE_MOVEMENT_SMALL_TURN] = N_("small turns"),
  [CARPACE_MOVEMENT_MIDDLE_TURN] = N_("middle turns"),
  [CARPACE_MOVEMENT_LARGE_TURN] = N_("large turns"),
  [CARPACE_MOVEMENT_SHORT_PURSUIT] = N_("short pursuit"),
  [CARPACE_MOVEMENT_LONG_PURSUIT] = N_("long pursuit"),
  [CARPACE_MOVEMENT_BUTTON_PRESS] = N_("button presses"),
};
static const char *const groups[CARPACE_N_GROUPS] = {
  [CARPACE_GROUP_ULNAR_DEVIATORS] = N_("little-finger-side wrist muscles"),
  [CARPACE_GROUP_RADIAL_DEVIATORS] = N_("thumb-side wrist muscles"),
  [CARPACE_GROUP_FINGER_FLEXORS] = N_("finger flexors"),
  [CARPACE_GROUP_WRIST_AND_FINGER_EXTENSORS] = N_("wrist and finger extensors"),
  [CARPACE_GROUP_GRIP_AND_THUMB] = N_("grip and thumb muscles"),
  [CARPACE_GROUP_PRONATORS] = N_("muscles that hold the palm down"),
  [CARPACE_GROUP_ELBOW] = N_("elbow muscles"),
  [CARPACE_GROUP_SHOULDER_INWARD] = N_("shoulder muscles, inward"),
  [CARPACE_GROUP_SHOULDER_OUTWARD] = N_("shoulder muscles, outward"),
  [CARPACE_GROUP_NECK_AND_SHOULDER_GIRDLE] = N_("neck and shoulder girdle"),
};
static const char *const regions[CARPACE_N_REGIONS] = {
  [CARPACE_REGION_HAND] = N_("hand"),
  [CARPACE_REGION_ELBOW] = N_("elbow"),
  [CARPACE_REGION_SHOULDER] = N_("shoulder"),
};
static const char *const rules[CARPACE_N_RULES] = {
  [CARPACE_RULE_ABOVE_STOP] = N_("above the line for stopping"),
  [CARPACE_RULE_UP_2] = N_("up by 2 or more"),
  [CARPACE_RULE_UP_TO_4_OR_5] = N_("up to 4 or 5, and 2 above usual"),
  [CARPACE_RULE_UP_1] = N_("up by 1"),
  [CARPACE_RULE_UNANSWERED_TWICE] = N_("two ratings in a row not answered"),
  [CARPACE_RULE_TIGHTENED_THRICE] = N_("third tightening of the day"),
  [CARPACE_RULE_TOO_SHORT] = N_("next block too short"),
  [CARPACE_RULE_CAUTION] = N_("a caution is open"),
  [CARPACE_RULE_CUT] = N_("less than before"),
  [CARPACE_RULE_REST_DAY] = N_("rest day"),
  [CARPACE_RULE_KEEP_NO_PRACTICE] = N_("kept: no practice for 72 hours"),
  [CARPACE_RULE_KEEP_OTHER_LOAD] = N_("kept: another unusual load"),
  [CARPACE_RULE_AFTER_TIME_OFF] = N_("after time off"),
  [CARPACE_RULE_KEEP_WEEK] = N_("kept: the week's ratings rose"),
  [CARPACE_RULE_WAY_BACK] = N_("building back"),
  [CARPACE_RULE_STEP_UP] = N_("step up"),
  [CARPACE_RULE_KEEP] = N_("kept"),
  [CARPACE_RULE_CUT_ONCE] = N_("less this once"),
  [CARPACE_RULE_TAKE_BACK] = N_("step taken back"),
  [CARPACE_RULE_NO_ANSWERS] = N_("no answers for long"),
};

const char *
carpace_text_sign (CarpaceSign sign)
{
  return NAME_OF (signs, sign);
}

const char *
carpace_text_stiffness (CarpaceStiffness stiffness)
{
  return NAME_OF (stiffnesses, stiffness);
}

const char *
carpace_text_movement (CarpaceMovement movement)
{
  return NAME_OF (movements, movement);
}

const char *
carpace_text_group (CarpaceGroup group)
{
  return NAME_OF (groups, group);
}

const char *
carpace_text_region (CarpaceRegion region)
{
  return NAME_OF (regions, region);
}

const char *
carpace_text_rule (CarpaceRule rule)
{
  return NAME_OF (rules, rule);
}

char *
carpace_text_signs (uint32_t bits)
{
  GString *joined = g_string_new (NULL);

  for (int sign = 0; sign < CARPACE_N_SIGNS; sign++)
    if (bits & (UINT32_C (1) << sign))
      g_string_append_printf (joined, "%s%s", joined->len > 0 ? "; " : "", carpace_text_sign ((CarpaceSign) sign));
  return g_string_free (joined, FALSE);
}
