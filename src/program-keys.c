/* SPDX-License-Identifier: GPL-3.0-or-later */
/* program-keys.c: keys of the desktop's own, where the player lets it have them: among GNOME's, else by its portal. */
#include "program-private.h"

#include <glib/gi18n.h>
#include <string.h>

#include "adapters/keys-gnome.h"
#include "adapters/keys-portal.h"
#include "carpace/shortcuts.h"
#include "text/shortcuts-text.h"
#include "ui/message-window.h"

struct CarpaceProgramKeys
{
  CarpaceProgram *p;
  CarpaceKeysPortal *portal; /* NULL: not by it */
  CarpaceKeysPortalRow *rows;
  GPtrArray *texts;          /* that rows name */
  bool asked;                /* just now: the answer is told */
  guint ending;              /* a source: they are not wanted after all */
};

static bool
is_gnome (void)
{
  return carpace_keys_gnome_is_here (g_getenv ("XDG_CURRENT_DESKTOP"));
}

/* ---- among GNOME's ---- */

static void
set_gnome (bool on)
{
  CarpaceKeysGnomeRow *rows = g_new0 (CarpaceKeysGnomeRow, carpace_n_shortcuts);
  GPtrArray *texts = g_ptr_array_new_with_free_func (g_free);
  char *program = g_file_read_link ("/proc/self/exe", NULL);

  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    {
      const CarpaceShortcut *shortcut = &carpace_shortcuts[i];
      char *name = carpace_text_shortcut (shortcut), *keys = carpace_text_shortcut_keys (shortcut, CARPACE_KEYS_FOR_GTK);

      rows[i] = (CarpaceKeysGnomeRow){ shortcut->id, name, shortcut->words, keys };
      g_ptr_array_add (texts, name);
      g_ptr_array_add (texts, keys);
    }
  carpace_keys_gnome_set (rows, carpace_n_shortcuts, program != NULL ? program : "carpace", on);
  g_free (program);
  g_ptr_array_unref (texts);
  g_free (rows);
}

/* ---- by the portal ---- */

static void
pressed (void *self, const char *id)
{
  carpace_program_shortcut (((struct CarpaceProgramKeys *) self)->p, carpace_shortcut_of (id)->words);
}

static gboolean
end_soon (gpointer user)
{
  struct CarpaceProgramKeys *keys = user;

  keys->ending = 0;
  carpace_program_settings_unset (keys->p, CARPACE_SETTING_DESKTOP_KEYS);
  return G_SOURCE_REMOVE;
}

/* The setting says what holds: where the desktop said no, it is off again. */
static void
portal_state (void *self, CarpaceKeysPortalState state)
{
  struct CarpaceProgramKeys *keys = self;

  if (!keys->asked)
    return;
  if (state == CARPACE_KEYS_PORTAL_DENIED || state == CARPACE_KEYS_PORTAL_ABSENT)
    {
      carpace_message_show (CARPACE_MESSAGE_REFUSED, _("The desktop does not let Carpace have keys; “carpace desktop --shortcuts” "
                                                       "says how to set them up by hand."));
      keys->asked = false;
      if (keys->ending == 0)
        keys->ending = g_idle_add (end_soon, keys);
    }
  else if (state == CARPACE_KEYS_PORTAL_BOUND)
    keys->asked = false;
}

static void
begin_portal (struct CarpaceProgramKeys *keys)
{
  GDBusConnection *bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  const CarpaceKeysPortalListener listener = { keys, pressed, portal_state };

  if (bus == NULL)
    return;
  keys->rows = g_new0 (CarpaceKeysPortalRow, carpace_n_shortcuts);
  keys->texts = g_ptr_array_new_with_free_func (g_free);
  for (int32_t i = 0; i < carpace_n_shortcuts; i++)
    {
      char *name = carpace_text_shortcut (&carpace_shortcuts[i]);
      char *trigger = carpace_text_shortcut_keys (&carpace_shortcuts[i], CARPACE_KEYS_FOR_PORTAL);

      keys->rows[i] = (CarpaceKeysPortalRow){ carpace_shortcuts[i].id, name, trigger };
      g_ptr_array_add (keys->texts, name);
      g_ptr_array_add (keys->texts, trigger);
    }
  keys->portal = carpace_keys_portal_new (bus, keys->rows, carpace_n_shortcuts, listener);
  g_object_unref (bus);
}

/* ---- from outside ---- */

void
carpace_program_keys_end (CarpaceProgram *p)
{
  struct CarpaceProgramKeys *keys = g_steal_pointer (&p->desktop_keys);

  if (keys == NULL)
    return;
  g_clear_handle_id (&keys->ending, g_source_remove);
  carpace_keys_portal_free (keys->portal);
  g_free (keys->rows);
  g_clear_pointer (&keys->texts, g_ptr_array_unref);
  g_free (keys);
}

/* At a start what was set up before holds: only a change of the setting asks. A portal that is frozen is waited for by
 * nobody: it answers, or not, later. */
void
carpace_program_keys_follow (CarpaceProgram *p, bool changed)
{
  if (!changed && !p->settings.desktop_keys)
    return;
  carpace_program_keys_end (p);
  if (is_gnome () && changed)
    set_gnome (p->settings.desktop_keys);
  if (is_gnome () || !p->settings.desktop_keys)
    return;
  p->desktop_keys = g_new0 (struct CarpaceProgramKeys, 1);
  p->desktop_keys->p = p;
  p->desktop_keys->asked = changed;
  begin_portal (p->desktop_keys);
  if (changed && p->desktop_keys->portal != NULL)
    carpace_keys_portal_ask (p->desktop_keys->portal);
}
