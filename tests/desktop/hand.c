/* SPDX-License-Identifier: GPL-3.0-or-later */
/* A hand on the mouse, for tests: moves the pointer of $DISPLAY by XTEST.
 *
 * Lines on standard input:
 *   move RATE X Y   circles around X Y, RATE motions a second (1..8000)
 *   still           stops
 * Each line is answered by `ok` once it holds. The end of input ends it. */
#define _POSIX_C_SOURCE 200809L

#include <math.h>
#include <poll.h>
#include <stdbool.h>
#include <stdint.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

#include <X11/Xlib.h>
#include <X11/extensions/XTest.h>

typedef struct
{
  Display *display;
  int rate, x, y;
  int64_t next_ns;
  long steps;
} Hand;

static int64_t
now_ns (void)
{
  struct timespec now;

  clock_gettime (CLOCK_MONOTONIC, &now);
  return now.tv_sec * INT64_C (1000000000) + now.tv_nsec;
}

static void
step (Hand *hand)
{
  double angle = (double) (hand->steps++ % 64) * 6.283185307179586 / 64;

  XTestFakeMotionEvent (hand->display, -1, hand->x + (int) (40 * cos (angle)), hand->y + (int) (40 * sin (angle)), 0);
}

/* Makes the steps that are due; after a pause of the whole process it does not
 * make up for more than a tenth of a second. */
static void
move (Hand *hand)
{
  int64_t now = now_ns (), apart = INT64_C (1000000000) / hand->rate;

  if (now - hand->next_ns > INT64_C (100000000))
    hand->next_ns = now;
  for (; hand->next_ns <= now; hand->next_ns += apart)
    step (hand);
  XFlush (hand->display);
}

static bool
obey (Hand *hand, const char *line)
{
  int rate, x, y;

  if (strcmp (line, "still\n") == 0)
    hand->rate = 0;
  else if (sscanf (line, "move %d %d %d", &rate, &x, &y) == 3 && rate >= 1 && rate <= 8000)
    {
      hand->rate = rate;
      hand->x = x;
      hand->y = y;
      hand->next_ns = now_ns ();
      step (hand);
    }
  else
    return false;
  XSync (hand->display, True);
  puts ("ok");
  fflush (stdout);
  return true;
}

static int
timeout_ms (const Hand *hand)
{
  int64_t ahead;

  if (hand->rate == 0)
    return -1;
  ahead = hand->next_ns - now_ns ();
  return ahead > 0 ? (int) (ahead / 1000000 + 1) : 0;
}

int
main (void)
{
  Hand hand = { .display = XOpenDisplay (NULL) };
  struct pollfd input = { .fd = 0, .events = POLLIN };
  char line[128];

  if (!hand.display)
    {
      fputs ("hand: no display\n", stderr);
      return 1;
    }
  setvbuf (stdin, NULL, _IONBF, 0);
  while (poll (&input, 1, timeout_ms (&hand)) >= 0)
    {
      if (input.revents && !fgets (line, sizeof line, stdin))
        break;
      if (input.revents && !obey (&hand, line))
        {
          fprintf (stderr, "hand: not understood: %s", line);
          return 1;
        }
      if (hand.rate > 0)
        move (&hand);
    }
  XCloseDisplay (hand.display);
  return 0;
}
