/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-give-pane.c: a plan is given to whom is named, and only while it can be. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include <cmocka.h>

#include "display.h"
#include "ui/give-pane.h"

typedef struct
{
  CarpaceGivePane *pane;
  GtkWidget *window;
  const char *why_not;
  char *codes;
} Desk;

static const char *
why_not (void *self)
{
  return ((Desk *) self)->why_not;
}

static char *
folder_of (void *self)
{
  return NULL;
}

static char *
read_codes (void *self, const char *path, char **ret_fault)
{
  return NULL;
}

static char *
give (void *self, const char *codes, const char *folder)
{
  Desk *desk = self;

  g_free (desk->codes);
  desk->codes = g_strdup (codes);
  return g_strdup ("K7: version 2");
}

static char *
ahead (void *self, const char *codes, const char *folder)
{
  return g_strdup_printf ("To be given to %s", codes);
}

static int
set_up (void **state)
{
  Desk *desk = g_new0 (Desk, 1);

  desk->pane = carpace_give_pane_new (&(CarpaceGivePaneGiven){ desk, why_not, folder_of, read_codes, give, ahead });
  desk->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_container_add (GTK_CONTAINER (desk->window), carpace_give_pane_widget (desk->pane));
  gtk_widget_show (desk->window);
  display_settle ();
  *state = desk;
  return 0;
}

static int
tear_down (void **state)
{
  Desk *desk = *state;

  carpace_give_pane_free (desk->pane);
  gtk_widget_destroy (desk->window);
  g_free (desk->codes);
  g_free (desk);
  return 0;
}

/* The first of that type whose text begins so; NULL: any text. */
typedef struct
{
  GType type;
  const char *text;
  GtkWidget *found;
} Search;

static const char *
text_of (GtkWidget *widget)
{
  return GTK_IS_BUTTON (widget) ? gtk_button_get_label (GTK_BUTTON (widget))
         : GTK_IS_LABEL (widget) ? gtk_label_get_text (GTK_LABEL (widget)) : "";
}

static void
look (GtkWidget *widget, gpointer user)
{
  Search *search = user;

  if (search->found == NULL && G_OBJECT_TYPE (widget) == search->type
      && (search->text == NULL || g_str_has_prefix (text_of (widget) != NULL ? text_of (widget) : "", search->text)))
    search->found = widget;
  if (search->found == NULL && GTK_IS_CONTAINER (widget))
    gtk_container_forall (GTK_CONTAINER (widget), look, search);
}

static GtkWidget *
find (Desk *desk, GType type, const char *text)
{
  Search search = { type, text, NULL };

  look (desk->window, &search);
  return search.found;
}

static void
it_is_given_to_whom_is_named (void **state)
{
  Desk *desk = *state;
  GtkWidget *button = find (desk, GTK_TYPE_BUTTON, "_Write the copies"), *codes = find (desk, GTK_TYPE_ENTRY, NULL);

  assert_false (gtk_widget_get_sensitive (button));
  gtk_entry_set_text (GTK_ENTRY (codes), "  ");
  assert_false (gtk_widget_get_sensitive (button));
  gtk_entry_set_text (GTK_ENTRY (codes), "K7 K8");
  assert_true (gtk_widget_get_sensitive (button));
  assert_null (desk->codes);
  gtk_button_clicked (GTK_BUTTON (button));
  assert_string_equal (desk->codes, "K7 K8");
  assert_true (gtk_widget_get_visible (find (desk, GTK_TYPE_LABEL, "K7: version 2")));
}

/* What each copy would change is told before anything is written, and follows what is typed. */
static void
it_is_told_before_it_is_given (void **state)
{
  Desk *desk = *state;
  GtkWidget *codes = find (desk, GTK_TYPE_ENTRY, NULL);

  gtk_entry_set_text (GTK_ENTRY (codes), "K7");
  display_settle ();
  gtk_entry_set_text (GTK_ENTRY (codes), "K7 K8");
  display_settle ();
  assert_true (gtk_widget_get_visible (find (desk, GTK_TYPE_LABEL, "To be given to K7 K8")));
  assert_null (desk->codes);
  g_signal_emit_by_name (codes, "activate");
  display_settle ();
  assert_false (gtk_widget_get_visible (find (desk, GTK_TYPE_LABEL, "To be given to K7 K8")));
  assert_true (gtk_widget_get_visible (find (desk, GTK_TYPE_LABEL, "K7: version 2")));
  desk->why_not = "It has no file yet";
  carpace_give_pane_changed (desk->pane);
  display_settle ();
  assert_null (find (desk, GTK_TYPE_LABEL, "To be given to"));
}

/* A plan with faults, or without a file, is given to nobody; Return in the entry is no way round it. */
static void
it_is_not_given_while_it_cannot_be (void **state)
{
  Desk *desk = *state;
  GtkWidget *button = find (desk, GTK_TYPE_BUTTON, "_Write the copies"), *codes = find (desk, GTK_TYPE_ENTRY, NULL);

  gtk_entry_set_text (GTK_ENTRY (codes), "K7");
  desk->why_not = "It has no file yet";
  carpace_give_pane_changed (desk->pane);
  assert_false (gtk_widget_get_sensitive (button));
  assert_true (gtk_widget_get_visible (find (desk, GTK_TYPE_LABEL, "It has no file yet")));
  g_signal_emit_by_name (codes, "activate");
  assert_null (desk->codes);
  desk->why_not = NULL;
  carpace_give_pane_changed (desk->pane);
  g_signal_emit_by_name (codes, "activate");
  assert_string_equal (desk->codes, "K7");
}

#define ROW(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (void)
{
  const struct CMUnitTest tests[] = { ROW (it_is_given_to_whom_is_named), ROW (it_is_told_before_it_is_given), ROW (it_is_not_given_while_it_cannot_be) };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
