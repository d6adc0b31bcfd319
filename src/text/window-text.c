/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "text/window-text.h"

#include <glib.h>
#include <glib/gi18n.h>

#include "text/quoted.h"

const char *
carpace_text_window_pick (bool by_click)
{
  return by_click ? _("Click on the window you practise in. Escape leaves things as they are.")
                  : _("Bring the window you practise in to the front.");
}

static char *
shown (const CarpaceListedWindow *window)
{
  g_autofree char *name = carpace_text_harmless (window->name), *program = carpace_text_harmless (window->program);

  /* Translators: a window's name, and the file of its program */
  return program[0] != '\0' ? g_strdup_printf (_("%s (program %s)"), name, program) : g_strdup (name);
}

char *
carpace_text_window_picked (const CarpaceListedWindow *window, bool own)
{
  g_autofree char *name = window != NULL ? shown (window) : NULL;

  if (name == NULL)
    return g_strdup (_("No window was chosen."));
  return own ? g_strdup (_("That is a window of Carpace; choose the one you practise in."))
             : g_strdup_printf (_("Practice window: %s. From now on only input in it counts as practice; the settings undo that."), name);
}

char *
carpace_text_windows (const char *list)
{
  GString *lines = g_string_new (NULL);
  CarpaceListedWindow window;
  const char *at = NULL;

  while (carpace_windows_next (list, &at, &window))
    {
      g_autofree char *name = shown (&window);
      g_string_append_printf (lines, "%s%s", lines->len > 0 ? ", " : "", name);
    }
  if (lines->len == 0)
    g_string_append (lines, _("No practice window is chosen: input in any window counts."));
  return g_string_free (lines, FALSE);
}

char *
carpace_text_window_forgotten (const char *name, int n)
{
  g_autofree char *harmless = name != NULL ? carpace_text_harmless (name) : NULL;

  if (n == 0 && harmless != NULL)
    return g_strdup_printf (_("“%s” is no practice window; “carpace window list” names them."), harmless);
  if (n == 0)
    return g_strdup (_("No practice window is chosen."));
  return harmless != NULL ? g_strdup_printf (_("%s is no practice window any more."), harmless)
                          : g_strdup (_("No practice window any more: input in any window counts."));
}

const char *
carpace_text_no_windows (void)
{
  return _("This desktop does not tell which window is in front: practice counts in any.");
}
