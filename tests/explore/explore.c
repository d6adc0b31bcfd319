/* SPDX-License-Identifier: GPL-3.0-or-later */
/* explore.c: every order of events, breadth first: explore [OPTION]... PLAN...
 *
 * A state is kept as its parent and the action that led to it, 6 bytes, and is
 * had again by going the way from the beginning; that it was met is 8 bytes of
 * its canonical form. What is found is found by the shortest way there is. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <time.h>

#include "alphabet.h"
#include "canonical.h"
#include "checks.h"
#include "days.h"
#include "plans.h"
#include "trace.h"

#define MOST_DEPTH 200
#define MOST_KINDS 40
#define TWINS 10000 /* of so many duplicates one is looked at */

/* One kind of fault, and how often it was met. */
typedef struct
{
  char text[200];
  uint64_t n;
} Kind;

typedef struct
{
  const ExplorePlan *about;
  CarpacePlan plan;
  uint32_t most;     /* states */

  uint32_t n;        /* states met; the first is the root */
  uint32_t *parent;
  uint16_t *action;
  uint64_t *met;     /* hashes, open addressing */
  uint32_t *met_by;  /* the state that has it */
  uint64_t mask;
  uint64_t steps, duplicates, looked_at;
  int depth;
  int kinds;
  Kind kind[MOST_KINDS];
} Exploration;

static void *
room_for (size_t n, size_t size)
{
  void *room = calloc (n, size);

  if (room == NULL)
    {
      fprintf (stderr, "explore: not enough memory\n");
      exit (2);
    }
  return room;
}

static void
begin (Exploration *x)
{
  uint64_t slots = 1;

  while (slots < 2 * (uint64_t) x->most)
    slots *= 2;
  x->mask = slots - 1;
  x->met = room_for (slots, sizeof *x->met);
  x->met_by = room_for (slots, sizeof *x->met_by);
  x->parent = room_for (x->most + 1, sizeof *x->parent);
  x->action = room_for (x->most + 1, sizeof *x->action);
}

static void
finish (Exploration *x)
{
  free (x->met);
  free (x->met_by);
  free (x->parent);
  free (x->action);
}

/* @return the state with this hash, or UINT32_MAX where it is new and now has one */
static uint32_t
meet (Exploration *x, uint64_t hash)
{
  uint64_t slot = hash & x->mask;

  while (x->met[slot] != 0)
    {
      if (x->met[slot] == hash)
        return x->met_by[slot];
      slot = (slot + 1) & x->mask;
    }
  x->met[slot] = hash;
  x->met_by[slot] = x->n;
  return UINT32_MAX;
}

static int
way_to (const Exploration *x, uint32_t state, uint16_t way[MOST_DEPTH])
{
  int n = 0, from = MOST_DEPTH;

  for (; state != 0 && from > 0; state = x->parent[state])
    way[--from] = x->action[state];
  n = MOST_DEPTH - from;
  memmove (way, way + from, (size_t) n * sizeof way[0]);
  return n;
}

/* The letters of the plan's alphabet. */
static int
n_actions (const Exploration *x)
{
  return x->about->about == 0 ? days_n () : alphabet_n ();
}

static bool
apply (const Exploration *x, Evening *e, int action, Script *script)
{
  return (x->about->about == 0 ? days_apply : alphabet_apply) (e, action, x->about->about, script);
}

static int
go (const Exploration *x, uint32_t state, Evening *e, Script *script)
{
  uint16_t way[MOST_DEPTH];
  int n = way_to (x, state, way);

  evening_begin (e, &x->plan);
  e->tell = script != NULL ? script->file : NULL;
  evening_say (e, x->about->begin, script);
  for (int i = 0; i < n; i++)
    apply (x, e, way[i], script);
  return n;
}

/* @return whether it is the first of its kind */
static bool
note (Exploration *x, const char *text)
{
  int i = 0;

  while (i < x->kinds && strcmp (x->kind[i].text, text) != 0)
    i++;
  if (i == MOST_KINDS)
    return false;
  if (i == x->kinds)
    snprintf (x->kind[x->kinds++].text, sizeof x->kind[i].text, "%s", text);
  return ++x->kind[i].n == 1;
}

/* The way there as a script. @action is the last step, -1 where there is none. */
static void
found (Exploration *x, uint32_t state, int action, const char *fault)
{
  static Evening e;
  Script script = { .file = stdout };
  char text[200];

  snprintf (text, sizeof text, "%s", fault); /* it may stand in the evening that is begun anew */
  if (!note (x, text))
    return;
  printf ("\n# %s\n# %s\n# plan %s, %d steps\n", text, check_detail, x->about->name, go (x, state, &e, NULL) + (action >= 0));
  go (x, state, &e, &script);
  if (action >= 0)
    apply (x, &e, action, &script);
  script_line (&script, &e, "stop");
  fflush (stdout);
}

/* Whether two evenings with one canonical form do the same. */
static void
look_at_twin (Exploration *x, uint32_t state, const Evening *twin, uint32_t parent, int action)
{
  static Evening e, a, b;

  go (x, state, &e, NULL);
  if (e.fault != NULL || twin->fault != NULL)
    return; /* neither is gone on from */
  x->looked_at++;
  for (int next = 0; next < n_actions (x); next++)
    {
      evening_copy (&a, &e);
      evening_copy (&b, twin);
      a.told = b.told = 0;
      bool went = apply (x, &a, next, NULL);
      if (went != apply (x, &b, next, NULL))
        break;
      if (went && (canonical_hash (&a.s, a.now) != canonical_hash (&b.s, b.now) || a.told != b.told))
        {
          found (x, parent, action, "this and the next have one canonical form and do not do the same");
          found (x, state, -1, "the next");
          return;
        }
    }
}

static void
check_new (Exploration *x, Evening *e, uint32_t parent, int action)
{
  const char *fault = e->fault;

  carpace_always_look (&e->always, &e->s, e->now);
  if (fault == NULL && e->always.broken)
    fault = e->always.fault;
  if (fault == NULL)
    fault = check_replay (e);
  if (fault == NULL)
    fault = check_worse (e, x->about->about == 0 || (x->about->about & ABOUT_MORNING));
  if (fault != NULL)
    found (x, parent, action, fault);
  check_detail[0] = '\0';
}

static void
take (Exploration *x, Evening *e, uint32_t parent, int action)
{
  uint32_t known = meet (x, canonical_hash (&e->s, e->now));

  if (known != UINT32_MAX)
    {
      if (e->fault != NULL)
        found (x, parent, action, e->fault);
      if (++x->duplicates % TWINS == 0)
        look_at_twin (x, known, e, parent, action);
      return;
    }
  x->parent[x->n] = parent;
  x->action[x->n] = (uint16_t) action;
  check_new (x, e, parent, action);
  x->n++;
}

static void
expand (Exploration *x, uint32_t state)
{
  static Evening from, to;

  x->depth = go (x, state, &from, NULL);
  if (from.fault != NULL)
    return; /* what comes after a fault tells nothing */
  for (int action = 0; action < n_actions (x) && x->n < x->most; action++)
    {
      evening_copy (&to, &from);
      to.checking = true;
      if (!apply (x, &to, action, NULL))
        continue;
      x->steps++;
      take (x, &to, state, action);
    }
}

static void
print (const Exploration *x, uint32_t gone_on_from, double seconds)
{
  printf ("%s: %u states, %u gone on from, %llu actions, %d deep, %llu of %llu twins looked at, %.0f s\n",
          x->about->name, x->n, gone_on_from, (unsigned long long) x->steps, x->depth, (unsigned long long) x->looked_at,
          (unsigned long long) x->duplicates, seconds);
  for (int i = 0; i < x->kinds; i++)
    printf ("  %llu times: %s\n", (unsigned long long) x->kind[i].n, x->kind[i].text);
  fflush (stdout);
}

/* Where mornings are compared a state takes ten times as long, a day of days more. */
static uint32_t
share_of (const ExplorePlan *about, uint32_t states)
{
  return about->about == 0 ? states / 20 : about->about & ABOUT_MORNING ? states / 3 : states;
}

/* @return how many kinds of fault were found */
static int
explore (const ExplorePlan *about, uint32_t most)
{
  static Exploration x;
  static Evening e;
  clock_t start = clock ();
  uint32_t state = 0;

  x = (Exploration){ .about = about, .most = share_of (about, most) };
  carpace_trace_plan (&x.plan, about->blocks, about->limit_min);
  about->change (&x.plan);
  begin (&x);
  go (&x, 0, &e, NULL);
  meet (&x, canonical_hash (&e.s, e.now));
  for (x.n = 1; state < x.n && x.n < x.most; state++)
    expand (&x, state);
  print (&x, state, (double) (clock () - start) / CLOCKS_PER_SEC);
  finish (&x);
  return x.kinds;
}

static bool
wanted (const char *name, int n, char **names)
{
  for (int i = 0; i < n; i++)
    if (strcmp (names[i], name) == 0)
      return true;
  return n == 0;
}

static void
print_plans (void)
{
  for (int i = 0; explore_plan (i) != NULL; i++)
    printf ("%s\n", explore_plan (i)->name);
}

int
main (int argc, char **argv)
{
  uint32_t most = argc > 1 ? (uint32_t) strtoul (argv[1], NULL, 10) : 0;
  int kinds = 0;

  if (argc == 2 && strcmp (argv[1], "plans") == 0)
    {
      print_plans ();
      return 0;
    }
  if (most == 0)
    {
      fprintf (stderr, "usage: explore STATES [PLAN]... | explore plans\n");
      return 2;
    }
  for (int i = 0; explore_plan (i) != NULL; i++)
    if (wanted (explore_plan (i)->name, argc - 2, argv + 2))
      kinds += explore (explore_plan (i), most);
  return kinds > 0;
}
