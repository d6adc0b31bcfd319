/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-files.c: the desktop's own dialogs for files, and its own list of recent ones. */
#include "ui/planner-private.h"

#include <glib/gi18n.h>

#include "ui/card.h"
#include "ui/planner-parts.h"

#define MIME "application/vnd.carpace.plan+yaml"

enum { THROW_AWAY = 1, KEEP, SAVE };

char *
carpace_planner_files_name (const CarpacePlannerWindow *window)
{
  const char *path = window->given.path (window->given.self);

  return path != NULL ? g_filename_display_basename (path) : g_strdup (_("New plan"));
}

/* ---- the list of recent files ---- */

static void
note_recent (const char *path)
{
  char *groups[] = { (char *) "carpace-plan", NULL };
  GtkRecentData data = { .mime_type = (char *) MIME, .app_name = (char *) "Carpace", .app_exec = (char *) "carpace planner %f", .groups = groups };
  g_autofree char *absolute = g_canonicalize_filename (path, NULL), *uri = g_filename_to_uri (absolute, NULL, NULL);

  if (uri != NULL)
    gtk_recent_manager_add_full (gtk_recent_manager_get_default (), uri, &data);
}

/* ---- questions ---- */

static int
ask (CarpacePlannerWindow *window, const char *text, const char *more, const char *const *labels, const int *answers, int n, int usual)
{
  GtkWidget *dialog = gtk_message_dialog_new (GTK_WINDOW (window->window), GTK_DIALOG_MODAL | GTK_DIALOG_DESTROY_WITH_PARENT,
                                              GTK_MESSAGE_OTHER, GTK_BUTTONS_NONE, "%s", text);
  int answer;

  gtk_message_dialog_format_secondary_text (GTK_MESSAGE_DIALOG (dialog), "%s", more);
  gtk_style_context_add_class (gtk_widget_get_style_context (dialog), "carpace-ask");
  for (int i = 0; i < n; i++)
    gtk_dialog_add_button (GTK_DIALOG (dialog), labels[i], answers[i]);
  gtk_dialog_set_default_response (GTK_DIALOG (dialog), usual);
  answer = gtk_dialog_run (GTK_DIALOG (dialog));
  gtk_widget_destroy (dialog);
  return answer;
}

bool
carpace_planner_files_may_go (CarpacePlannerWindow *window)
{
  const char *const labels[] = { _("_Throw away"), _("_Go on planning"), _("_Save") };
  const int answers[] = { THROW_AWAY, KEEP, SAVE };
  g_autofree char *name = carpace_planner_files_name (window);
  g_autofree char *text = g_strdup_printf (_("Save the changes to “%s”?"), name);

  carpace_planner_window_settle (window);
  if (!carpace_planner_is_unsaved (window->given.planner))
    return true;
  switch (ask (window, text, _("What is not saved is gone once this window is closed."), labels, answers, 3, SAVE))
    {
    case SAVE: carpace_planner_files_save (window); return !carpace_planner_is_unsaved (window->given.planner);
    case THROW_AWAY: window->given.forget (window->given.self); return true;
    default: return false;
    }
}

/* ---- open ---- */

static void
add_filters (GtkFileChooser *chooser)
{
  GtkFileFilter *plans = gtk_file_filter_new (), *all = gtk_file_filter_new ();

  gtk_file_filter_set_name (plans, _("Plans"));
  gtk_file_filter_add_pattern (plans, "*.plan.yaml");
  gtk_file_filter_add_pattern (plans, "*.plan.json");
  gtk_file_filter_set_name (all, _("All files"));
  gtk_file_filter_add_pattern (all, "*");
  gtk_file_chooser_add_filter (chooser, plans);
  gtk_file_chooser_add_filter (chooser, all);
}

static void
open_path (CarpacePlannerWindow *window, const char *path)
{
  g_autofree char *why = window->given.open (window->given.self, path);

  if (why != NULL)
    carpace_planner_window_say (window, why);
  else
    note_recent (path);
}

void
carpace_planner_files_open (CarpacePlannerWindow *window)
{
  GtkFileChooserNative *native;

  if (!carpace_planner_files_may_go (window))
    return;
  native = gtk_file_chooser_native_new (_("Open a plan"), GTK_WINDOW (window->window), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Open"), NULL);
  add_filters (GTK_FILE_CHOOSER (native));
  if (gtk_native_dialog_run (GTK_NATIVE_DIALOG (native)) == GTK_RESPONSE_ACCEPT)
    {
      g_autofree char *path = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (native));

      if (path != NULL)
        open_path (window, path);
    }
  g_object_unref (native);
}

static void
recent_chosen (GtkRecentChooser *chooser, CarpacePlannerWindow *window)
{
  g_autofree char *uri = gtk_recent_chooser_get_current_uri (chooser);
  g_autofree char *path = uri != NULL ? g_filename_from_uri (uri, NULL, NULL) : NULL;

  if (path != NULL && carpace_planner_files_may_go (window))
    open_path (window, path);
}

static GtkWidget *
recent_menu (CarpacePlannerWindow *window)
{
  GtkWidget *menu = gtk_recent_chooser_menu_new ();
  GtkRecentFilter *filter = gtk_recent_filter_new ();

  gtk_recent_filter_add_group (filter, "carpace-plan");
  gtk_recent_chooser_set_filter (GTK_RECENT_CHOOSER (menu), filter);
  gtk_recent_chooser_set_local_only (GTK_RECENT_CHOOSER (menu), TRUE);
  gtk_recent_chooser_set_sort_type (GTK_RECENT_CHOOSER (menu), GTK_RECENT_SORT_MRU);
  gtk_recent_chooser_set_limit (GTK_RECENT_CHOOSER (menu), 10);
  gtk_style_context_add_class (gtk_widget_get_style_context (menu), "carpace-menu");
  g_signal_connect (menu, "item-activated", G_CALLBACK (recent_chosen), window);
  return menu;
}

/* ---- save ---- */

static void
save_to (CarpacePlannerWindow *window, const char *path)
{
  g_autofree char *why = NULL;

  if (window->given.save (window->given.self, path, &why) != CARPACE_FILE_FINE)
    carpace_planner_window_say (window, why);
  else
    note_recent (window->given.path (window->given.self));
}

void
carpace_planner_files_save_as (CarpacePlannerWindow *window)
{
  GtkFileChooserNative *native
    = gtk_file_chooser_native_new (_("Save the plan"), GTK_WINDOW (window->window), GTK_FILE_CHOOSER_ACTION_SAVE, _("_Save"), NULL);
  const char *path = window->given.path (window->given.self);

  carpace_planner_window_settle (window);
  add_filters (GTK_FILE_CHOOSER (native));
  gtk_file_chooser_set_do_overwrite_confirmation (GTK_FILE_CHOOSER (native), TRUE);
  if (path != NULL)
    gtk_file_chooser_set_filename (GTK_FILE_CHOOSER (native), path);
  else
    gtk_file_chooser_set_current_name (GTK_FILE_CHOOSER (native), _("new.plan.yaml"));
  if (gtk_native_dialog_run (GTK_NATIVE_DIALOG (native)) == GTK_RESPONSE_ACCEPT)
    {
      g_autofree char *chosen = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (native));

      if (chosen != NULL)
        save_to (window, chosen);
    }
  g_object_unref (native);
}

void
carpace_planner_files_save (CarpacePlannerWindow *window)
{
  carpace_planner_window_settle (window);
  if (window->given.path (window->given.self) == NULL)
    carpace_planner_files_save_as (window);
  else
    save_to (window, NULL);
}

GtkWidget *
carpace_planner_files_menu (CarpacePlannerWindow *window)
{
  GtkWidget *menu = gtk_menu_new (), *recent = gtk_menu_item_new_with_mnemonic (_("_Recent plans"));
  GtkWidget *as = gtk_menu_item_new_with_mnemonic (_("Save _as…"));

  gtk_style_context_add_class (gtk_widget_get_style_context (menu), "carpace-menu");
  gtk_menu_item_set_submenu (GTK_MENU_ITEM (recent), recent_menu (window));
  g_signal_connect_swapped (as, "activate", G_CALLBACK (carpace_planner_files_save_as), window);
  gtk_menu_shell_append (GTK_MENU_SHELL (menu), recent);
  gtk_menu_shell_append (GTK_MENU_SHELL (menu), as);
  gtk_widget_show_all (menu);
  return menu;
}
