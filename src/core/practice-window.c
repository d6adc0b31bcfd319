/* SPDX-License-Identifier: GPL-3.0-or-later */
/* practice-window.c: a list of windows, read and compared. */
#include "carpace/practice-window.h"

#include <string.h>

static bool
is_blank (char c)
{
  return c == ' ' || c == '\t';
}

/* @n bytes of @text, without blanks about them, as a list may have them. A character is never cut in two. */
static void
take (const char *text, size_t n, char ret[CARPACE_WINDOW_BYTES])
{
  while (n > 0 && is_blank (text[0]))
    text++, n--;
  while (n > 0 && is_blank (text[n - 1]))
    n--;
  if (n > CARPACE_WINDOW_BYTES - 1)
    {
      n = CARPACE_WINDOW_BYTES - 1;
      while (n > 0 && ((unsigned char) text[n] & 0xc0) == 0x80)
        n--;
    }
  for (size_t i = 0; i < n; i++)
    {
      unsigned char c = (unsigned char) text[i];
      ret[i] = c < ' ' || c == 0x7f || c == ';' || c == '/' ? '_' : text[i];
    }
  ret[n] = '\0';
}

bool
carpace_windows_next (const char *list, const char **at, CarpaceListedWindow *ret_window)
{
  const char *from = *at != NULL ? *at : list;

  while (from != NULL && *from != '\0')
    {
      size_t n = strcspn (from, ";"), name = strcspn (from, ";/");

      take (from, name, ret_window->name);
      take (from + name + (name < n), n - name - (name < n), ret_window->program);
      from += n + (from[n] == ';');
      *at = from;
      if (ret_window->name[0] != '\0')
        return true;
    }
  return false;
}

bool
carpace_window_listed (const CarpaceWindow *window, CarpaceListedWindow *ret_window)
{
  const char *name = window->name != NULL ? window->name : "", *program = window->program != NULL ? window->program : "";

  take (name, strlen (name), ret_window->name);
  take (program, strlen (program), ret_window->program);
  return ret_window->name[0] != '\0';
}

bool
carpace_listed_equal (const CarpaceListedWindow *a, const CarpaceListedWindow *b)
{
  return strcmp (a->name, b->name) == 0 && strcmp (a->program, b->program) == 0;
}

static char
small (char c)
{
  return c >= 'A' && c <= 'Z' ? (char) (c - 'A' + 'a') : c;
}

static bool
same_name (const char *a, const char *b)
{
  while (*a != '\0' && small (*a) == small (*b))
    a++, b++;
  return small (*a) == small (*b);
}

bool
carpace_windows_have (const char *list, const CarpaceWindow *window)
{
  CarpaceListedWindow seen, listed;
  const char *at = NULL;

  if (!carpace_window_listed (window, &seen))
    return false;
  while (carpace_windows_next (list, &at, &listed))
    if (same_name (listed.name, seen.name)
        && (listed.program[0] == '\0' || seen.program[0] == '\0' || strcmp (listed.program, seen.program) == 0))
      return true;
  return false;
}
