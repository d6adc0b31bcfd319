/* SPDX-License-Identifier: GPL-3.0-or-later */
/* give-pane.c: codes, a folder, a button, what would come of it, and what came of it. */
#include "ui/give-pane.h"

#include <glib/gi18n.h>
#include <string.h>

#define EDGE 16
#define TARGET 44

struct CarpaceGivePane
{
  CarpaceGivePaneGiven given;
  GtkSizeGroup *labels; /* controls begin where the widest ends */
  GtkWidget *root, *box, *codes, *folder, *button, *why_not, *told, *ahead;
  guint looking; /* a source: what would come of it is worked out */
};

static GtkWidget *
words (const char *text)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  return label;
}

static void
say (CarpaceGivePane *pane, const char *text)
{
  gtk_label_set_text (GTK_LABEL (pane->told), text);
  gtk_widget_set_visible (pane->told, text[0] != '\0');
}

/* ---- what would come of it ---- */

static gboolean
look_ahead (gpointer user)
{
  CarpaceGivePane *pane = user;
  g_autofree char *folder = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (pane->folder)), *words = NULL;
  bool can = gtk_widget_get_sensitive (pane->button);

  pane->looking = 0;
  if (can)
    words = pane->given.ahead (pane->given.self, gtk_entry_get_text (GTK_ENTRY (pane->codes)), folder);
  gtk_label_set_text (GTK_LABEL (pane->ahead), can ? words : "");
  gtk_widget_set_visible (pane->ahead, can);
  return G_SOURCE_REMOVE;
}

static void
show_ahead (CarpaceGivePane *pane)
{
  say (pane, "");
  if (pane->looking == 0)
    pane->looking = g_idle_add (look_ahead, pane);
}

/* ---- what is done ---- */

/* Where the plan is, until another is chosen. */
static void
look_for_folder (CarpaceGivePane *pane)
{
  g_autofree char *chosen = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (pane->folder));
  g_autofree char *folder = chosen == NULL ? pane->given.folder (pane->given.self) : NULL;

  if (folder != NULL)
    gtk_file_chooser_set_filename (GTK_FILE_CHOOSER (pane->folder), folder);
}

static void
look (CarpaceGivePane *pane)
{
  const char *why_not = pane->given.why_not (pane->given.self);
  g_autofree char *codes = g_strstrip (g_strdup (gtk_entry_get_text (GTK_ENTRY (pane->codes))));

  look_for_folder (pane);
  gtk_label_set_text (GTK_LABEL (pane->why_not), why_not != NULL ? why_not : "");
  gtk_widget_set_visible (pane->why_not, why_not != NULL);
  gtk_widget_set_sensitive (pane->button, why_not == NULL && codes[0] != '\0');
  show_ahead (pane);
}

static void
give (CarpaceGivePane *pane)
{
  g_autofree char *folder = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (pane->folder));
  g_autofree char *told = NULL;

  if (!gtk_widget_get_sensitive (pane->button))
    return;
  told = pane->given.give (pane->given.self, gtk_entry_get_text (GTK_ENTRY (pane->codes)), folder);
  g_clear_handle_id (&pane->looking, g_source_remove);
  gtk_widget_hide (pane->ahead);
  say (pane, told);
}

static void
take_list (CarpaceGivePane *pane, const char *path)
{
  g_autofree char *fault = NULL, *codes = pane->given.read_codes (pane->given.self, path, &fault);

  if (codes != NULL)
    gtk_entry_set_text (GTK_ENTRY (pane->codes), codes);
  say (pane, codes != NULL ? "" : fault);
}

static void
ask_for_list (CarpaceGivePane *pane)
{
  GtkWindow *window = GTK_WINDOW (gtk_widget_get_toplevel (pane->root));
  GtkWidget *dialog = gtk_file_chooser_dialog_new (_("A list of codes"), window, GTK_FILE_CHOOSER_ACTION_OPEN, _("_Not now"),
                                                   GTK_RESPONSE_CANCEL, _("_Read"), GTK_RESPONSE_ACCEPT, NULL);

  if (gtk_dialog_run (GTK_DIALOG (dialog)) == GTK_RESPONSE_ACCEPT)
    {
      g_autofree char *path = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (dialog));

      if (path != NULL)
        take_list (pane, path);
    }
  gtk_widget_destroy (dialog);
}

/* ---- how it is built ---- */

static void
add_row (CarpaceGivePane *pane, const char *mnemonic, GtkWidget *control, GtkWidget *beside)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8), *label = gtk_label_new_with_mnemonic (mnemonic);

  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_size_group_add_widget (pane->labels, label);
  gtk_label_set_mnemonic_widget (GTK_LABEL (label), control);
  atk_object_set_name (gtk_widget_get_accessible (control), gtk_label_get_text (GTK_LABEL (label)));
  gtk_widget_set_size_request (control, -1, TARGET);
  gtk_box_pack_start (GTK_BOX (row), label, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), control, beside != NULL, beside != NULL, 0);
  if (beside != NULL)
    gtk_box_pack_start (GTK_BOX (row), beside, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (pane->box), row, FALSE, FALSE, 0);
}

static GtkWidget *
make_button (const char *mnemonic, void (*clicked) (CarpaceGivePane *pane), CarpaceGivePane *pane)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (mnemonic);

  gtk_widget_set_size_request (button, TARGET, TARGET);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (clicked), pane);
  return button;
}

static void
fill (CarpaceGivePane *pane)
{
  pane->labels = gtk_size_group_new (GTK_SIZE_GROUP_HORIZONTAL);
  pane->codes = gtk_entry_new ();
  gtk_entry_set_placeholder_text (GTK_ENTRY (pane->codes), _("K7 K8 K9"));
  gtk_entry_set_activates_default (GTK_ENTRY (pane->codes), FALSE);
  g_signal_connect_swapped (pane->codes, "changed", G_CALLBACK (look), pane);
  g_signal_connect_swapped (pane->codes, "activate", G_CALLBACK (give), pane);
  pane->folder = gtk_file_chooser_button_new (_("Where the copies go"), GTK_FILE_CHOOSER_ACTION_SELECT_FOLDER);
  g_signal_connect_swapped (pane->folder, "file-set", G_CALLBACK (show_ahead), pane);
  pane->button = make_button (_("_Write the copies"), give, pane);
  gtk_widget_set_halign (pane->button, GTK_ALIGN_START);
  pane->why_not = words ("");
  pane->told = words ("");
  gtk_label_set_selectable (GTK_LABEL (pane->told), TRUE);
  gtk_widget_set_name (pane->told, "given");
  atk_object_set_role (gtk_widget_get_accessible (pane->told), ATK_ROLE_ALERT);
  pane->ahead = words ("");
  gtk_widget_set_name (pane->ahead, "ahead");
  gtk_box_pack_start (GTK_BOX (pane->box), words (_("Each player gets a copy of the plan as it is here, in a file by the player’s code, with its version counted up. "
                                                    "What is there already is never written over.")), FALSE, FALSE, 0);
  add_row (pane, _("_Codes of players"), pane->codes, make_button (_("From a _list…"), ask_for_list, pane));
  add_row (pane, _("_Folder"), pane->folder, NULL);
  g_clear_object (&pane->labels); /* its widgets hold it */
  gtk_box_pack_start (GTK_BOX (pane->box), pane->why_not, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (pane->box), pane->button, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (pane->box), pane->ahead, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (pane->box), pane->told, FALSE, FALSE, 0);
}

CarpaceGivePane *
carpace_give_pane_new (const CarpaceGivePaneGiven *given)
{
  CarpaceGivePane *pane = g_new0 (CarpaceGivePane, 1);

  pane->given = *given;
  return pane;
}

void
carpace_give_pane_free (CarpaceGivePane *pane)
{
  if (pane == NULL)
    return;
  g_clear_handle_id (&pane->looking, g_source_remove);
  if (pane->root != NULL)
    {
      gtk_widget_destroy (pane->root);
      g_object_unref (pane->root);
    }
  g_free (pane);
}

GtkWidget *
carpace_give_pane_widget (CarpaceGivePane *pane)
{
  if (pane->root != NULL)
    return pane->root;
  pane->root = g_object_ref_sink (gtk_scrolled_window_new (NULL, NULL));
  pane->box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 16);
  gtk_container_set_border_width (GTK_CONTAINER (pane->box), EDGE);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (pane->root), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (pane->root), FALSE);
  fill (pane);
  gtk_container_add (GTK_CONTAINER (pane->root), pane->box);
  gtk_widget_show_all (pane->root);
  gtk_widget_set_no_show_all (pane->why_not, TRUE);
  gtk_widget_set_no_show_all (pane->told, TRUE);
  gtk_widget_set_no_show_all (pane->ahead, TRUE);
  gtk_widget_hide (pane->ahead);
  say (pane, "");
  look (pane);
  return pane->root;
}

void
carpace_give_pane_changed (CarpaceGivePane *pane)
{
  if (pane->root != NULL)
    look (pane);
}
