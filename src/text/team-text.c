/* SPDX-License-Identifier: GPL-3.0-or-later */
/* team-text.c: keys, grants, bundles and the roster in words. */
#include "text/team-text.h"

#include <errno.h>
#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

#include "text/diary-text.h"
#include "text/file-text.h"
#include "text/quoted.h"

static const char *const faults[CARPACE_N_TEAM_FAULTS] = {
  [CARPACE_TEAM_FINE] = N_("%s is as it should be."),
  [CARPACE_TEAM_FOREIGN] = N_("%s is no file of Carpace's."),
  [CARPACE_TEAM_NEWER] = N_("%s was made by a newer Carpace: install that one to read it."),
  [CARPACE_TEAM_OTHER_KIND] = N_("%s is a file of Carpace's, but of another kind."),
  [CARPACE_TEAM_TOO_LARGE] = N_("%s is larger than such a file can be; it was not read."),
  [CARPACE_TEAM_CUT] = N_("%s ends too early: it may not be copied to its end yet. Copy it again."),
  [CARPACE_TEAM_DAMAGED] = N_("%s is damaged: it does not read as what it says it is. Ask for it again."),
  [CARPACE_TEAM_FORGED] = N_("%s was changed after it was signed, or the signature is forged. Ask for it again, by another way."),
  [CARPACE_TEAM_OTHER_SIGNER] = N_("%s is signed by somebody else than it says."),
  [CARPACE_TEAM_UNKNOWN] = N_("%s is by somebody whose key you have not accepted: compare the six words, then “carpace key accept”."),
  [CARPACE_TEAM_NOT_GRANTED] = N_("%s holds what the player has not let you read; it was not opened."),
  [CARPACE_TEAM_NOT_YET] = N_("%s is under a grant that begins later."),
  [CARPACE_TEAM_ENDED] = N_("%s is under a grant that has ended: ask the player for another one, if it is still wanted."),
  [CARPACE_TEAM_WITHDRAWN] = N_("%s is under a grant that was withdrawn."),
  [CARPACE_TEAM_UNGUARDED] = N_("%s needs a guardian's signature that is not there, or whose key you have not accepted."),
  [CARPACE_TEAM_ROLLED_BACK] = N_("%s is older than what was seen before: somebody put an old copy back, or two computers use one device key."),
  [CARPACE_TEAM_FORKED] = N_("%s does not follow on the one before it: two computers may use one device key. Ask the player."),
  [CARPACE_TEAM_NOT_FOR_YOU] = N_("%s is sealed to others: ask the player to share again."),
  [CARPACE_TEAM_AHEAD] = N_("%s was made in the future: the clock it was made by is wrong, or this computer's."),
  [CARPACE_TEAM_ERASED] = N_("%s is from before the player asked for erasure; it was not read."),
  [CARPACE_TEAM_WRONG_PHRASE] = N_("The pass phrase does not open %s."),
  [CARPACE_TEAM_NO_MEMORY] = N_("There is not enough memory to open %s; close other programs, then try again."),
  [CARPACE_TEAM_LOOSE] = N_("%s can be read by others, or belongs to somebody else: it is not used. Make it yours alone (chmod 600), and if others may have read it, make new keys."),
  [CARPACE_TEAM_NO_FILE] = N_("%s is not there."),
  [CARPACE_TEAM_NOT_ORDINARY] = N_("%s is a link, a folder or a device: only ordinary files are read or written."),
};

char *
carpace_text_team_fault (CarpaceTeamFault fault, const char *what)
{
  g_autofree char *why = g_utf8_make_valid (g_strerror (errno), -1), *shown = carpace_text_path (what);
  GString *sentence;

  if (fault == CARPACE_TEAM_FAILED)
    return g_strdup_printf (_("%s cannot be read or written: %s."), shown, why);
  sentence = g_string_new (_(faults[fault]));
  g_string_replace (sentence, "%s", shown, 1);
  return g_string_free (sentence, FALSE);
}

char *
carpace_text_roster_damaged (const char *path)
{
  g_autofree char *shown = carpace_text_path (path);

  return g_strdup_printf (_("%s is damaged: take it away, and it is made anew of what lies in the folder."), shown);
}

const char *
carpace_text_role (CarpaceRole role)
{
  static const char *const names[CARPACE_N_ROLES] = {
    [CARPACE_ROLE_PLAYER] = N_("player"),
    [CARPACE_ROLE_COACH] = N_("coach"),
    [CARPACE_ROLE_CLINICIAN] = N_("physiotherapist or doctor"),
    [CARPACE_ROLE_GUARDIAN] = N_("parent or guardian"),
  };

  return _(names[role]);
}

const char *
carpace_text_grant_what (CarpaceGrantWhat what)
{
  static const char *const names[CARPACE_N_GRANT_WHATS] = {
    [CARPACE_GRANT_NONE] = N_("nothing"),
    [CARPACE_GRANT_LOAD] = N_("weeks of practice"),
    [CARPACE_GRANT_HAND] = N_("how the hand is, day by day"),
    [CARPACE_GRANT_ALL] = N_("weeks of practice, and how the hand is, day by day"),
  };

  return _(names[what]);
}

const char *
carpace_text_grant_means (CarpaceGrantWhat what, bool own)
{
  static const struct { const char *own, *others; } means[CARPACE_N_GRANT_WHATS] = { /* NULL: the same words */
    [CARPACE_GRANT_NONE] = { N_("Nothing new goes to them. What they have read already they may remember or have copied: no program takes that back."), NULL },
    [CARPACE_GRANT_LOAD] = { N_("Of each week that is over: practice time planned and done, days practised, rests taken; and which plan is in use, since when. No single days and nothing about the hand."), NULL },
    [CARPACE_GRANT_HAND] = { N_("Each day: blocks, rests, ratings, morning checks, sites, cautions, measurements, and what was decided from them. Not your notes."),
                             N_("Each day: blocks, rests, ratings, morning checks, sites, cautions, measurements, and what was decided from them. Not the player's notes.") },
    [CARPACE_GRANT_ALL] = { N_("Each week's practice time and plan; and each day's blocks, rests, ratings, morning checks, sites, cautions, measurements, and what was decided from them. Not your notes."),
                            N_("Each week's practice time and plan; and each day's blocks, rests, ratings, morning checks, sites, cautions, measurements, and what was decided from them. Not the player's notes.") },
  };

  return _(own || means[what].others == NULL ? means[what].own : means[what].others);
}

const char *
carpace_text_look (CarpaceLook look)
{
  static const char *const looks[CARPACE_N_LOOKS] = {
    [CARPACE_LOOK_CAUTION] = N_("a caution is open"),
    [CARPACE_LOOK_TWO_RISING] = N_("ratings rose for two weeks"),
    [CARPACE_LOOK_CUT_TWICE] = N_("practice time cut twice within 7 days"),
    [CARPACE_LOOK_LEVEL_DOWN] = N_("the level came down twice within 28 days"),
    [CARPACE_LOOK_SILENT] = N_("no answer for a week"),
    [CARPACE_LOOK_MISSING] = N_("nothing has come for a week"),
    [CARPACE_LOOK_NOT_IN_FORCE] = N_("the plan that was given is not in use"),
    [CARPACE_LOOK_CEILING] = N_("at the most practice time that the plan allows"),
  };

  return _(looks[look]);
}

char *
carpace_text_given_by (const CarpaceHandOut *hand_out)
{
  g_autofree char *giver = carpace_text_quoted (hand_out->giver_name), *date = carpace_text_date ((CarpaceDay) (hand_out->made_s / 86400));

  return g_strdup_printf (_("Given by %s (%s) on %s, and signed."), giver, carpace_text_role (hand_out->giver_role), date);
}

char *
carpace_text_note_by (const CarpaceCard *from, int64_t made_s)
{
  g_autofree char *name = carpace_text_quoted (from->name), *date = carpace_text_date ((CarpaceDay) (made_s / 86400));

  /* Translators: a name, a role, a date; the note's own words follow */
  return g_strdup_printf (_("A note by %s (%s) of %s:"), name, carpace_text_role (from->role), date);
}

void
carpace_text_note_notice (const CarpaceCard *from, CarpaceNotice *ret_notice)
{
  g_autofree char *name = carpace_text_quoted (from->name);

  *ret_notice = (CarpaceNotice) { .cue = CARPACE_CUE_UNSTARTED, .title = g_strdup (_("A note has come")), .quiet = true, .passes = true };
  /* Translators: a name, a role */
  ret_notice->body = g_strdup_printf (_("By %s (%s). It stands in the window of today."), name, carpace_text_role (from->role));
}

char *
carpace_text_grant_row (const CarpaceGrant *grant, CarpaceTeamFault holds)
{
  g_autofree char *since = carpace_text_date (grant->since), *until = grant->until != 0 ? carpace_text_date (grant->until) : NULL;
  GString *row = g_string_new (NULL);

  g_string_append_printf (row, "%s: %s", carpace_text_role (grant->reader_role), carpace_text_grant_what (grant->what));
  if (holds == CARPACE_TEAM_WITHDRAWN)
    g_string_append_printf (row, " (%s)", _("stopped"));
  else if (holds == CARPACE_TEAM_UNGUARDED)
    g_string_append_printf (row, " (%s)", _("waits for the guardian's signature"));
  else
    {
      g_string_append_printf (row, until != NULL ? _(", %s to %s") : _(", since %s"), since, until);
      if (holds == CARPACE_TEAM_ENDED)
        g_string_append_printf (row, " (%s)", _("ended"));
    }
  return g_string_free (row, FALSE);
}
