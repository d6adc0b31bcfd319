/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * text.h: decisions, refusals, faults and names in words.
 *
 * What tray and cards say is in face-text.h and notice.h; this is what they
 * share with the command line, the diary and the report. A `const char *` lives
 * as long as the program; a `char *` is the caller's: g_free() it. Everything is
 * plain UTF-8 text without markup, translated.
 */
#ifndef CARPACE_TEXT_H
#define CARPACE_TEXT_H

#include "carpace/at-least.h"
#include "carpace/view.h"
#include "carpace/wording.h"

/* ---- numbers ---- */

/** A date with its weekday, "Tue 2 Mar 2027". */
char *carpace_text_day (CarpaceDay day);

/** "65 %", "12.5 %". @param share hundredths of a percent */
char *carpace_text_share (int32_t share);

/* ---- names ---- */

const char *carpace_text_sign (CarpaceSign sign); /**< a sign as it is listed, not asked */
const char *carpace_text_stiffness (CarpaceStiffness stiffness);
const char *carpace_text_movement (CarpaceMovement movement);
const char *carpace_text_group (CarpaceGroup group);
const char *carpace_text_region (CarpaceRegion region);
const char *carpace_text_cue (CarpaceCue cue);    /**< what comes next: "rest", "the block's limit" ... */
const char *carpace_text_rule (CarpaceRule rule); /**< a rule, in a few plain words */

/** The names of @signs (bits 1u << CarpaceSign), joined; "" where none. */
char *carpace_text_signs (uint32_t signs);

/** The words of a closed set from its value @from on, joined with ", ". As
 * they are typed: not translated. */
char *carpace_text_words_of (CarpaceWords set, int32_t from);

/* ---- sentences ---- */

/** What a hand was seen to take, in one sentence, NULL where nothing is said. */
char *carpace_text_at_least (const CarpaceAtLeast *seen);

/** A decision in one sentence: what it was made from, what it does. */
char *carpace_text_why (const CarpaceDecision *decision);

/** The same where a row of days is only told of: no count that would read as one
 * towards a reward. */
char *carpace_text_why_short (const CarpaceDecision *decision);

/** How the caution of @closed (an entry of one that is closed) was closed: "seen by a
 * physiotherapist, Tue 2 Mar 2027". */
char *carpace_text_closed_how (const CarpaceEntry *closed);

/** When practice begins again after one. */
const char *carpace_text_after_caution (void);

/** What a caution, closed or opened, does to the dose; NULL where that was not recorded. */
char *carpace_text_why_caution (const CarpaceEntry *said);

/** What follows of it in a few words: "Next block shorter: 19 min 30 s", "Less
 * today: 42 min", "No more practice today". NULL where nothing changed. */
char *carpace_text_follows (const CarpaceDecision *decision);

/** "1 min 20 s over, counted in today's time". */
char *carpace_text_overrun (int64_t ms);

/** "discomfort 2", "discomfort 2 (Palm side)", "not answered" (-1). */
char *carpace_text_discomfort (int32_t discomfort, CarpaceSite site);

/** The program informs, no more. */
const char *carpace_text_informs (void);

/** Why @event was refused and what to do. */
char *carpace_text_refusal (CarpaceRefusal refusal, CarpaceEventKind event, CarpaceState state);

/** What is wrong with @words and what would be right. @nearest (may be NULL)
 * is the nearest command. */
char *carpace_text_wording (const CarpaceWording *wording, int n_words, const char *const *words,
                            const char *nearest);

/** What is wrong with a line of a script; what would be right. */
char *carpace_text_script_fault (const CarpaceScriptFault *fault);

/** A stranger's word, fit for one line of a terminal: valid UTF-8, nothing that
 * moves a cursor, 40 characters at most. */
char *carpace_text_shown_word (const char *word);

/** What a live command says where @event was taken: what a rating or a morning
 * led to, what a start asks. @view is as it is afterwards. NULL where nothing
 * need be said; on air nothing of hand, rating, load or health. */
char *carpace_text_taken (const CarpaceEvent *event, const CarpaceView *view, CarpaceInstant now);

/** `carpace status` for people: state, what is next, time to go; one line. On
 * air it says nothing about hand, rating, load or health. */
char *carpace_text_status (const CarpaceView *view, CarpaceInstant now);

/** "Intermission in 2 minutes", whole minutes rounded up; "Intermission" at 0. */
char *carpace_text_intermission (int64_t to_go_ms);

#endif
