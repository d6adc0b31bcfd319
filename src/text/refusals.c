/* SPDX-License-Identifier: GPL-3.0-or-later */
/* refusals.c: why something was not done, and what to do; each one sentence. */
#include "text/text.h"

#include <glib.h>
#include <glib/gi18n.h>
#include <string.h>

/* What to do instead where an answer or command has no meaning. */
static const char *const instead[CARPACE_N_STATES] = {
  [CARPACE_STATE_OFF] = N_("choose a block plan first"),
  [CARPACE_STATE_WAITING] = N_("no block is running; start one first"),
  [CARPACE_STATE_PRACTISING] = N_("a block is running; pause or end it first"),
  [CARPACE_STATE_GAP] = N_("a block is running; pause or end it first"),
  [CARPACE_STATE_REST_DUE] = N_("a rest is offered; answer it first"),
  [CARPACE_STATE_RESTING] = N_("a rest is running; let it end first"),
  [CARPACE_STATE_LIMIT_REACHED] = N_("the block's limit is reached; finish the run, or end the block"),
  [CARPACE_STATE_RATING_DUE] = N_("a rating is open; rate first, or start again to go on without"),
  [CARPACE_STATE_PAUSED] = N_("the block is paused; continue first"),
  [CARPACE_STATE_DAY_DONE] = N_("practice is done for today; it goes on the next practice day"),
};

static char *
not_now (CarpaceEventKind event, CarpaceState state)
{
  const char *word = carpace_name (CARPACE_WORDS_EVENT, event);
  const char *hint = (size_t) state < CARPACE_N_STATES ? _(instead[state]) : "";

  /* Translators: a command's word, and what to do instead */
  return g_strdup_printf (_("Cannot “%s” now: %s."), word ? word : "", hint);
}

char *
carpace_text_refusal (CarpaceRefusal refusal, CarpaceEventKind event, CarpaceState state)
{
  switch (refusal)
    {
    case CARPACE_REFUSAL_NO_PLAN:
      return g_strdup (_("No block plan is in use; choose one with “carpace plan use”."));
    case CARPACE_REFUSAL_NOT_NOW:
      return not_now (event, state);
    case CARPACE_REFUSAL_RUNNING:
      return g_strdup (_("A block is running already; end it before another is started."));
    case CARPACE_REFUSAL_NO_BLOCK:
      return g_strdup (_("No block is running; start one first."));
    case CARPACE_REFUSAL_NO_REST_OFFERED:
      return g_strdup (_("No rest is offered now; “Rest now” works at any time in a block."));
    case CARPACE_REFUSAL_NOTHING_TO_RATE:
      return g_strdup (_("There is no block to rate; a rating is asked for at each block's end."));
    case CARPACE_REFUSAL_RATED_TOO_LONG_AGO:
      return g_strdup (_("The last rating was given over 10 minutes ago and stays; the next is asked for at the next "
                         "block's end."));
    case CARPACE_REFUSAL_OUT_OF_RANGE:
      return g_strdup (_("Discomfort is a whole number from 0 (none) to 10 (the worst imaginable); give one of these."));
    case CARPACE_REFUSAL_CAUTION_OPEN:
      return g_strdup (_("No practice today: a caution is open, or was today; when a physiotherapist or doctor has seen "
                         "it, say so under “Cautions…” and practise from the next practice day."));
    case CARPACE_REFUSAL_ABOVE_STOP:
      return g_strdup (_("No more practice today: discomfort was above the plan's line for stopping; tomorrow's morning "
                         "check decides how it goes on."));
    case CARPACE_REFUSAL_REST_DAY:
      return g_strdup (_("No practice today: it is a rest day; tomorrow's morning check decides how it goes on."));
    case CARPACE_REFUSAL_NO_CAUTION:
      return g_strdup (_("No caution is open; there is nothing to close."));
    case CARPACE_REFUSAL_GONE_TOO_EARLY:
      return g_strdup (_("“gone” closes a caution three days after it opened, not earlier; “seen” closes it once a "
                         "physiotherapist or doctor has seen it."));
    case CARPACE_REFUSAL_SEEN_ONLY:
      return g_strdup (_("Only “seen” closes this caution, once a physiotherapist or doctor has seen it: one of its "
                         "signs is for the same day."));
    case CARPACE_REFUSAL_SEEN_WHEN:
      return g_strdup (_("A caution is seen between the day it opened and today; give that date."));
    case CARPACE_REFUSAL_DAY_BEHIND:
      return g_strdup (_("Today's practice was taken in from a file that holds too little to go on with it, so today is over; "
                         "practise from the next practice day."));
    case CARPACE_REFUSAL_IMPOSSIBLE:
      return g_strdup (_("Carpace has a fault here, which it has noted in the diary; please report it. Practice goes on."));
    case CARPACE_N_REFUSALS:
      break;
    }
  return not_now (event, state);
}

char *
carpace_text_words_of (CarpaceWords set, int32_t from)
{
  GString *joined = g_string_new (NULL);

  for (int32_t i = from; i < carpace_names_count (set); i++)
    g_string_append_printf (joined, "%s%s", joined->len > 0 ? ", " : "", carpace_name (set, i));
  return g_string_free (joined, FALSE);
}

static char *
unknown_command (const char *word, const char *nearest)
{
  if (nearest)
    return g_strdup_printf (_("There is no command “%s”; did you mean “%s”?"), word, nearest);
  return g_strdup_printf (_("There is no command “%s”; “carpace --help” names them all."), word);
}

static char *
not_of_set (CarpaceWords set, const char *word)
{
  bool first_is_unsaid = set == CARPACE_WORDS_STIFFNESS || set == CARPACE_WORDS_SITE || set == CARPACE_WORDS_SEEN_BY;
  g_autofree char *all = carpace_text_words_of (set, first_is_unsaid ? 1 : 0);
  int32_t nearest = carpace_name_nearest (set, word);

  if (nearest >= (first_is_unsaid ? 1 : 0))
    return g_strdup_printf (_("“%s” is not known here; did you mean “%s”? There are: %s."), word,
                            carpace_name (set, nearest), all);
  return g_strdup_printf (_("“%s” is not known here; there are: %s."), word, all);
}

/* What is expected where a word is missing. */
static char *
missing (int n_words, const char *command)
{
  if (n_words == 0)
    return g_strdup (_("A command is missing; “carpace --help” names them all."));
  if (g_str_equal (command, "on-air"))
    return g_strdup (_("“on-air” needs “on” or “off” after it."));
  return g_strdup_printf (_("“%s” needs a whole number from 0 to 10 after it."),
                          g_str_equal (command, "morning") ? "--now" : command);
}

char *
carpace_text_wording (const CarpaceWording *wording, int n_words, const char *const *words, const char *nearest)
{
  g_autofree char *word = carpace_text_shown_word (wording->at < n_words ? words[wording->at] : "");
  g_autofree char *command = carpace_text_shown_word (n_words > 0 ? words[0] : "");

  switch (wording->fault)
    {
    case CARPACE_WORDING_UNKNOWN:
      return unknown_command (word, nearest);
    case CARPACE_WORDING_MISSING:
      return missing (n_words, command);
    case CARPACE_WORDING_TOO_MANY:
      return g_strdup_printf (_("“%s” is one word too many after “%s”; leave it out."), word, command);
    case CARPACE_WORDING_NOT_A_RATING:
      return g_strdup_printf (_("“%s” is not on the scale; give a whole number from 0 (none) to 10 (the worst "
                                "imaginable)."),
                              word);
    case CARPACE_WORDING_NOT_OF_SET:
      return not_of_set (wording->set, word);
    case CARPACE_WORDING_NOT_ON_OFF:
      return g_strdup_printf (_("“%s” is neither “on” nor “off”; “%s” needs one of them."), word, command);
    case CARPACE_WORDING_NOT_OPTION:
      return g_strdup_printf (_("“%s” knows no option “%s”; “carpace --help” names them."), command, word);
    case CARPACE_WORDING_NOT_A_DATE:
      return g_strdup_printf (_("“%s” is no date; write it as 2027-03-02."), word);
    case CARPACE_WORDING_NOT_A_DOSE:
      return g_strdup_printf (_("“%s” is no practice time; write it with its unit, from 1 min to 8 h, such as “20 min”."),
                              word);
    case CARPACE_WORDING_NOT_A_COUNT:
      return g_strdup_printf (_("“%s” is no count; give a whole number from 0 to 1000000."), word);
    case CARPACE_WORDING_TWICE:
      return g_strdup_printf (_("“%s” says a second time what was said already; leave one out."), word);
    case CARPACE_WORDING_OK:
    case CARPACE_N_WORDINGS:
      break;
    }
  return g_strdup ("");
}

/* A line's words are told as those of a command, without the end of a sentence. */
static char *
script_wording (const CarpaceScriptFault *fault)
{
  const char *words[2] = { fault->command, fault->word };
  bool of_command = fault->wording.at == 0;
  CarpaceWording wording = fault->wording;

  wording.at = of_command ? 0 : 1;
  char *sentence = carpace_text_wording (&wording, of_command ? 1 : 2, of_command ? words + 1 : words, fault->nearest);
  if (g_str_has_suffix (sentence, "."))
    sentence[strlen (sentence) - 1] = '\0';
  return sentence;
}

char *
carpace_text_script_fault (const CarpaceScriptFault *fault)
{
  g_autofree char *word = carpace_text_shown_word (fault->word);

  switch (fault->kind)
    {
    case CARPACE_SCRIPT_TOO_LARGE:
      return g_strdup (_("the script is larger than 1 MiB; make it shorter"));
    case CARPACE_SCRIPT_NOT_TEXT:
      return g_strdup (_("this is no plain text; write it as UTF-8, without control characters"));
    case CARPACE_SCRIPT_TOO_MANY_WORDS:
      return g_strdup (_("too many words; a line is a time, a word and what belongs to it"));
    case CARPACE_SCRIPT_NOT_A_TIME:
      return g_strdup_printf (_("“%s” is no time; a line begins with h:mm:ss or h:mm:ss.mmm since the script's start"), word);
    case CARPACE_SCRIPT_TIME_GOES_BACK:
      return g_strdup_printf (_("“%s” is before the line above it; times never go back"), word);
    case CARPACE_SCRIPT_NO_WORD:
      return g_strdup (_("nothing happens at this time; a word such as “input” or “still” is missing"));
    case CARPACE_SCRIPT_WORDING:
      return script_wording (fault);
    case CARPACE_SCRIPT_AT_NOT_FIRST:
      return g_strdup (_("“at” sets the clock on the first line only; “clock +h:mm:ss” moves it later"));
    case CARPACE_SCRIPT_NOT_AN_INSTANT:
      return g_strdup_printf (_("“%s” is no time with its offset; write it as 2027-03-02T18:00:00+01:00"), word);
    case CARPACE_SCRIPT_NO_SUCH_ZONE:
      return g_strdup_printf (_("this machine knows no time zone “%s”; write a name such as Europe/Berlin"), word);
    case CARPACE_SCRIPT_NOT_A_SHIFT:
      return g_strdup_printf (_("“%s” does not say how far the clock is moved; write +h:mm:ss or -h:mm:ss"), word);
    case CARPACE_SCRIPT_AFTER_STOP:
      return g_strdup (_("“stop” ends the script; this line comes after it"));
    case CARPACE_SCRIPT_NO_MEMORY:
      return g_strdup (_("there is not enough memory for this script"));
    case CARPACE_N_SCRIPT_FAULTS:
      break;
    }
  return g_strdup ("");
}
