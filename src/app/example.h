/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * example.h: an evening that nobody practises, step by step, to be looked at.
 *
 * A session of its own on a virtual clock, with no diary and no desktop behind it: what
 * faces show of it is what they would show in earnest. Runs of a minute, gaps between
 * them, every rest taken, low ratings.
 */
#ifndef CARPACE_EXAMPLE_H
#define CARPACE_EXAMPLE_H

#include "app/loop.h"
#include "app/rehearse.h"

typedef struct
{
  CarpaceVirtualClock clock;
  CarpaceLoop loop;
  int64_t acts_ms;  /* elapsed time at which the player does the next thing */
  int64_t still_ms; /* the hand came to rest then; CARPACE_NEVER while it moves */
  int32_t ratings;
  bool over;
} CarpaceExample;

/** An evening of @plan that begins at @start; told to @faces. @plan outlives it. */
void carpace_example_begin (CarpaceExample *example, const CarpacePlan *plan, CarpaceInstant start, const CarpaceFaces *faces);

/** Goes on by @by_ms of the evening's own time. */
void carpace_example_go_on (CarpaceExample *example, int64_t by_ms);

/** Answers for the player what is on the screen and asks: an offer, a rating, the morning check. */
void carpace_example_answer (CarpaceExample *example);

/** Whether there is such a thing. While there is, carpace_example_go_on() lets no time go by: whoever
 * looks on has all the time there is to read it. */
bool carpace_example_asks (CarpaceExample *example);

/** Somebody who looks on answers. @return whether it was taken */
bool carpace_example_tell (CarpaceExample *example, const CarpaceEvent *event);

/** The view as of its own now. */
const CarpaceView *carpace_example_view (CarpaceExample *example);
CarpaceInstant carpace_example_now (const CarpaceExample *example);

/** The day is done. */
bool carpace_example_is_over (const CarpaceExample *example);

#endif
