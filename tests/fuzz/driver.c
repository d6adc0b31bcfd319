/* SPDX-License-Identifier: GPL-3.0-or-later */
/* driver.c: runs a fuzz target over its corpus, and over mutations of it that
 * the seed decides, without a fuzzer: so the targets are always built and run.
 * A fuzzer links the target with a main of its own instead.
 *
 *   fuzz-TARGET FOLDER [MUTATIONS [SEED]] */
#define _POSIX_C_SOURCE 200809L
#include <dirent.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "target.h"

#define MOST 65536

static uint64_t random_state;

/* xorshift64 (Marsaglia 2003, Journal of Statistical Software 8:14). */
static uint64_t
next_random (void)
{
  random_state ^= random_state << 13;
  random_state ^= random_state >> 7;
  random_state ^= random_state << 17;
  return random_state;
}

static size_t
mutate (uint8_t *data, size_t n)
{
  static const char bits[] = "\0\n\t#:.-+0129 \xff\xC3{[\"'&*!%";

  for (uint64_t changes = 1 + next_random () % 4; changes > 0; changes--)
    {
      size_t at = n > 0 ? next_random () % n : 0;
      uint8_t byte = (uint8_t) bits[next_random () % (sizeof bits - 1)];
      switch (n > 0 ? next_random () % 5 : 1)
        {
        case 0:
          data[at] = byte;
          break;
        case 1:
          if (n < MOST)
            {
              memmove (data + at + 1, data + at, n - at);
              data[at] = byte;
              n++;
            }
          break;
        case 2:
          memmove (data + at, data + at + 1, n - at - 1);
          n--;
          break;
        case 3:
          data[at] ^= (uint8_t) (1u << next_random () % 8);
          break;
        default:
          n = at;
          break;
        }
    }
  return n;
}

static size_t
read_whole (const char *path, uint8_t *data)
{
  FILE *file = fopen (path, "rb");

  if (file == NULL)
    {
      perror (path);
      exit (1);
    }
  size_t n = fread (data, 1, MOST, file);
  fclose (file);
  return n;
}

/* The target gets bytes that end where they end: a sanitizer sees a step past. */
static void
run (const uint8_t *data, size_t n)
{
  uint8_t *exact = malloc (n > 0 ? n : 1);

  memcpy (exact, data, n);
  LLVMFuzzerTestOneInput (exact, n);
  free (exact);
}

static int
by_name (const struct dirent **a, const struct dirent **b)
{
  return strcmp ((*a)->d_name, (*b)->d_name);
}

int
main (int argc, char **argv)
{
  static uint8_t kept[MOST + 1], data[MOST + 1];
  long mutations = argc > 2 ? atol (argv[2]) : 0;
  struct dirent **file;
  int n_files = argc > 1 ? scandir (argv[1], &file, NULL, by_name) : -1;
  int n_run = 0;

  random_state = argc > 3 ? strtoull (argv[3], NULL, 10) | 1 : 1;
  if (n_files < 0)
    {
      fprintf (stderr, "usage: %s FOLDER [MUTATIONS [SEED]]\n", argv[0]);
      return 1;
    }
  for (int i = 0; i < n_files; i++)
    {
      char path[4096];
      snprintf (path, sizeof path, "%s/%s", argv[1], file[i]->d_name);
      if (file[i]->d_name[0] != '.')
        {
          size_t n = read_whole (path, kept);
          run (kept, n);
          n_run++;
          for (long j = 0; j < mutations; j++)
            {
              memcpy (data, kept, n);
              run (data, mutate (data, n));
            }
        }
      free (file[i]);
    }
  free (file);
  printf ("%d files, %ld mutations of each, seed %llu\n", n_run, mutations,
          argc > 3 ? strtoull (argv[3], NULL, 10) : 1ULL);
  return n_run > 0 ? 0 : 1;
}
