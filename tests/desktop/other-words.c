/* SPDX-License-Identifier: GPL-3.0-or-later */
/* other-words.c: preloaded, it has a program that is not installed find its words in the folder PO_FOLDER, and read from
 * right to left where MIRRORED is set: for looking at languages that nobody installs. */
#define _GNU_SOURCE /* RTLD_NEXT */
#include <dlfcn.h>
#include <gtk/gtk.h>
#include <stdbool.h>
#include <string.h>

char *bindtextdomain (const char *domain, const char *folder);

/* C knows no conversion of what dlsym() gives to a function. */
#define NEXT(function) \
  do \
    { \
      void *next = dlsym (RTLD_NEXT, #function); \
      memcpy (&next_one, &next, sizeof next_one); \
    } \
  while (0)

char *
bindtextdomain (const char *domain, const char *folder)
{
  char *(*next_one) (const char *, const char *);
  bool ours = folder != NULL && g_strcmp0 (domain, "carpace") == 0 && g_getenv ("PO_FOLDER") != NULL;

  NEXT (bindtextdomain);
  return next_one (domain, ours ? g_getenv ("PO_FOLDER") : folder);
}

gboolean
gtk_init_check (int *argc, char ***argv)
{
  gboolean (*next_one) (int *, char ***);
  gboolean done;

  NEXT (gtk_init_check);
  done = next_one (argc, argv);
  if (done && g_getenv ("MIRRORED") != NULL)
    gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  return done;
}
