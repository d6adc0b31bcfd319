/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "ui/their-card.h"

#include <glib/gi18n.h>

#include "ui/part-words.h"

#define TARGET 44
#define OWN "carpace-their-card"

typedef struct
{
  const CarpaceSharingShown *shown;
  void (*taken) (void *user);
  void (*told) (void *user, const char *said);
  void *user;
  GtkWidget *whose;
  char *path;
} Card;

static void
free_card (gpointer own)
{
  Card *card = own;

  g_free (card->path);
  g_free (card);
}

static Card *
card_of (GtkWidget *widget)
{
  return g_object_get_data (G_OBJECT (widget), OWN);
}

/* What is no card leaves the one that was chosen. */
static void
take (Card *card, char *path)
{
  bool is = false;
  g_autofree char *said = card->shown->card (card->shown->self, path, &is);

  if (!is)
    {
      g_free (path);
      card->told (card->user, said);
      return;
    }
  g_free (card->path);
  card->path = path;
  gtk_label_set_text (GTK_LABEL (card->whose), said);
  card->told (card->user, "");
  card->taken (card->user);
}

static void
choose (GtkWidget *button, Card *card)
{
  GtkWidget *window = gtk_widget_get_toplevel (button);
  GtkFileChooserNative *native
    = gtk_file_chooser_native_new (_("Their card"), GTK_WINDOW (window), GTK_FILE_CHOOSER_ACTION_OPEN, _("_Take"), NULL);

  if (gtk_native_dialog_run (GTK_NATIVE_DIALOG (native)) == GTK_RESPONSE_ACCEPT)
    {
      char *path = gtk_file_chooser_get_filename (GTK_FILE_CHOOSER (native));

      if (path != NULL)
        take (card, path);
    }
  g_object_unref (native);
}

static void
dropped (GtkWidget *window, GdkDragContext *context, int x, int y, GtkSelectionData *data, guint info, guint at, Card *card)
{
  g_auto (GStrv) uris = gtk_selection_data_get_uris (data);
  char *path = uris != NULL && uris[0] != NULL && uris[1] == NULL ? g_filename_from_uri (uris[0], NULL, NULL) : NULL;

  if (path != NULL)
    take (card, path);
  else
    card->told (card->user, _("Drop one file of this computer: somebody's card."));
}

GtkWidget *
carpace_their_card_new (const CarpaceSharingShown *shown, void (*taken) (void *user), void (*told) (void *user, const char *said), void *user)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4), *button = gtk_button_new_with_mnemonic (_("Choose their _card…"));
  Card *card = g_new (Card, 1);

  *card = (Card) { .shown = shown, .taken = taken, .told = told, .user = user };
  g_object_set_data_full (G_OBJECT (box), OWN, card, free_card);
  gtk_widget_set_size_request (button, TARGET, TARGET);
  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  g_signal_connect (button, "clicked", G_CALLBACK (choose), card);
  card->whose = carpace_part_words (_("or drop its file on this window; they write it with “carpace key card”."), NULL);
  gtk_box_pack_start (GTK_BOX (box), button, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (box), card->whose, FALSE, FALSE, 0);
  return box;
}

void
carpace_their_card_take_drops (GtkWidget *card, GtkWidget *window)
{
  gtk_drag_dest_set (window, GTK_DEST_DEFAULT_ALL, NULL, 0, GDK_ACTION_COPY);
  gtk_drag_dest_add_uri_targets (window);
  g_signal_connect (window, "drag-data-received", G_CALLBACK (dropped), card_of (card));
}

const char *
carpace_their_card_path (GtkWidget *card)
{
  return card_of (card)->path;
}
