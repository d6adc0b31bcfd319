/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "find.h"

typedef struct
{
  const char *name;
  GtkWidget *found;
} Search;

static void
look (GtkWidget *widget, gpointer user)
{
  Search *search = user;
  const char *text = GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : NULL;

  if (search->found == NULL && gtk_widget_is_visible (widget)
      && (g_strcmp0 (atk_object_get_name (gtk_widget_get_accessible (widget)), search->name) == 0 || g_strcmp0 (text, search->name) == 0)
      && (GTK_IS_ENTRY (widget) || GTK_IS_BUTTON (widget) || GTK_IS_COMBO_BOX (widget) || GTK_IS_LABEL (widget)))
    search->found = widget;
  if (GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, search);
}

GtkWidget *
find_named (GtkWidget *window, const char *name, GType type)
{
  GtkWidget *widget;
  Search search = { name, NULL };

  look (window, &search);
  for (widget = search.found; widget != NULL && !G_TYPE_CHECK_INSTANCE_TYPE (widget, type); widget = gtk_widget_get_parent (widget))
    ;
  if (widget == NULL && search.found != NULL && GTK_IS_LABEL (search.found)) /* the label of a field */
    widget = gtk_label_get_mnemonic_widget (GTK_LABEL (search.found));
  return widget;
}
