/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-window.c: a header bar, the rail, the pages under it, the numbers beside. */
#include <glib/gi18n.h>

#include "text/duration.h"
#include "text/quoted.h"
#include "ui/card.h"
#include "ui/planner-parts.h"
#include "ui/planner-private.h"
#include "ui/window-room.h"

#define WIDE 1240
#define HIGH 720
#define EDGE 24
#define BESIDE 300

/* ---- what is said ---- */

void
carpace_planner_window_say (CarpacePlannerWindow *window, const char *text)
{
  carpace_planner_said_say (window->said, text);
}

void
carpace_planner_window_ask (CarpacePlannerWindow *window, const char *text, const char *yes, const char *no,
                            void (*answer) (void *user, bool yes), void *user)
{
  carpace_planner_said_ask (window->said, text, yes, no, answer, user);
}

void
carpace_planner_window_say_nothing (CarpacePlannerWindow *window)
{
  carpace_planner_said_nothing (window->said);
}

/* ---- the plan is another ---- */

static void
say_title (CarpacePlannerWindow *window)
{
  const CarpacePlan *plan = carpace_planner_plan (window->given.planner);
  g_autofree char *file = carpace_planner_files_name (window), *name = plan != NULL ? carpace_text_harmless (plan->name) : g_strdup (file);
  g_autofree char *below = carpace_planner_is_unsaved (window->given.planner) ? g_strdup_printf (_("%s, changed"), file) : g_strdup (file);
  g_autofree char *title = g_strdup_printf ("%s – %s", name, _("Planner"));

  gtk_header_bar_set_title (GTK_HEADER_BAR (window->header), name);
  gtk_header_bar_set_subtitle (GTK_HEADER_BAR (window->header), below);
  gtk_window_set_title (GTK_WINDOW (window->window), title);
}

static void
say_headline (CarpacePlannerWindow *window)
{
  const CarpacePlan *plan = carpace_planner_plan (window->given.planner);

  if (plan == NULL)
    {
      carpace_card_say (window->headline, _("This file is no plan yet; what is to be put right stands beside it."));
      return;
    }
  g_autofree char *dose = carpace_text_duration (plan->dose_ms), *most = carpace_text_duration (plan->at_most_ms);
  g_autofree char *words = g_strdup_printf (_("%s planned, %s at most"), dose, most), *air = carpace_planner_rail_air (window->rail);
  carpace_card_say (window->headline, words);
  carpace_card_say (window->air, air != NULL ? air : "");
}

static void
tell_page (CarpacePlannerMade *made)
{
  made->stale = false;
  if (made->page.changed != NULL)
    made->page.changed (made->page.self);
}

/* Only the one that is seen; the others once they are. */
static void
tell_pages (CarpacePlannerWindow *window, bool of_plan)
{
  int seen = gtk_notebook_get_current_page (GTK_NOTEBOOK (window->notebook));

  for (int i = 0; i < window->n_pages; i++)
    {
      CarpacePlannerMade *made = &window->pages[i];

      if (!made->made || (!of_plan && !made->page.of_chosen))
        continue;
      if (i == seen)
        tell_page (made);
      else
        made->stale = true;
    }
}

/* At once: what is dragged is to be seen in the frame it is dragged in. */
static void
changed (void *user)
{
  CarpacePlannerWindow *window = user;

  carpace_planner_rail_changed (window->rail);
  carpace_planner_numbers_changed (window->numbers);
  say_headline (window);
  if (carpace_planner_is_trying (window->given.planner))
    return;
  say_title (window);
  gtk_widget_set_sensitive (window->undo, carpace_planner_can_undo (window->given.planner));
  gtk_widget_set_sensitive (window->redo, carpace_planner_can_redo (window->given.planner));
  tell_pages (window, true);
  window->given.changed (window->given.self);
}

static void
chosen (void *self)
{
  tell_pages (self, false);
}

static void
done (void *self, CarpacePlanEditEnd end)
{
  CarpacePlannerWindow *window = self;

  switch (end)
    {
    case CARPACE_EDIT_DONE: return;
    case CARPACE_EDIT_NOT_THERE:
      if (!carpace_planner_is_sound (window->given.planner))
        carpace_planner_window_say (window, _("First put right what is wrong in the file: it stands beside the rail."));
      else
        carpace_planner_window_say (window, _("These blocks are worked out by the plan's split. Write them out first, on the page of blocks; then each can be changed."));
      return;
    case CARPACE_EDIT_TOO_LARGE:
      carpace_planner_window_say (window, _("The file would be larger than a plan may be, 256 KiB."));
      return;
    case CARPACE_EDIT_UNREAD:
    case CARPACE_EDIT_UNKNOWN_PATH:
    case CARPACE_EDIT_UNFIT:
      carpace_planner_window_say (window, _("The file cannot be changed there without touching more of it; change it on the page of the file."));
      return;
    }
}

static void
ease (void *self)
{
  done (self, carpace_planner_ease (((CarpacePlannerWindow *) self)->given.planner));
}

/* ---- pages ---- */

static void
make_page (CarpacePlannerWindow *window, int i)
{
  CarpacePlannerMade *made = &window->pages[i];

  if (!made->made)
    {
      made->made = made->stale = true;
      gtk_container_add (GTK_CONTAINER (made->holder), made->page.make (made->page.self));
      gtk_widget_show_all (made->holder);
    }
  if (made->stale)
    tell_page (made);
}

static void
page_shown (GtkNotebook *notebook, GtkWidget *page, guint i, CarpacePlannerWindow *window)
{
  make_page (window, (int) i);
}

void
carpace_planner_window_add_page (CarpacePlannerWindow *window, const CarpacePlannerPage *page)
{
  CarpacePlannerMade *made = &window->pages[window->n_pages++];
  GtkWidget *label = gtk_label_new (page->title);

  g_assert (window->n_pages <= CARPACE_PLANNER_PAGES);
  made->page = *page;
  made->holder = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  gtk_box_set_homogeneous (GTK_BOX (made->holder), TRUE);
  gtk_widget_show (made->holder);
  gtk_widget_show (window->notebook);
  gtk_notebook_append_page (GTK_NOTEBOOK (window->notebook), made->holder, label);
}

static void
show_page (CarpacePlannerWindow *window, int i)
{
  make_page (window, i);
  gtk_notebook_set_current_page (GTK_NOTEBOOK (window->notebook), i);
}

static void
jump (void *self, const char *path, int32_t line, int32_t column)
{
  CarpacePlannerWindow *window = self;

  for (int i = 0; i < window->n_pages; i++)
    {
      const CarpacePlannerPage *page = &window->pages[i].page;

      if (page->jump == NULL || *path == '\0')
        continue;
      show_page (window, i); /* first: what is not shown cannot have the focus */
      if (page->jump (page->self, path))
        return;
    }
  for (int i = 0; i < window->n_pages; i++)
    if (window->pages[i].page.jump_to != NULL)
      {
        show_page (window, i);
        window->pages[i].page.jump_to (window->pages[i].page.self, line, column);
      }
}

/* ---- what pages ask ---- */

void
carpace_planner_done (CarpacePlannerWindow *window, CarpacePlanEditEnd end)
{
  done (window, end);
}

CarpacePlannerValueOwner
carpace_planner_value_owner (CarpacePlannerWindow *window)
{
  return (CarpacePlannerValueOwner) { .planner = window->given.planner, .self = window, .done = done };
}

CarpacePlanner *
carpace_planner_of (CarpacePlannerWindow *window)
{
  return window->given.planner;
}

bool
carpace_planner_measured (CarpacePlannerWindow *window, const char *drill, CarpaceClicksCount *ret_count)
{
  return window->given.measured != NULL && window->given.measured (window->given.self, drill, ret_count);
}

int32_t
carpace_planner_chosen_block (CarpacePlannerWindow *window)
{
  return carpace_planner_rail_block (window->rail);
}

int32_t
carpace_planner_chosen_part (CarpacePlannerWindow *window)
{
  return carpace_planner_rail_part (window->rail);
}

void
carpace_planner_choose (CarpacePlannerWindow *window, int32_t block, int32_t part)
{
  carpace_planner_rail_choose (window->rail, block, part);
}

void
carpace_planner_begin_at (CarpacePlannerWindow *window, int32_t minutes)
{
  carpace_planner_rail_begin_at (window->rail, minutes);
  say_headline (window);
}

/* ---- how it is built ---- */

/* What is typed where the focus is has not been left yet. */
void
carpace_planner_window_settle (CarpacePlannerWindow *window)
{
  carpace_planner_value_settle (gtk_window_get_focus (GTK_WINDOW (window->window)));
  for (int i = 0; i < window->n_pages; i++)
    if (window->pages[i].made && window->pages[i].page.settle != NULL)
      window->pages[i].page.settle (window->pages[i].page.self);
}

static void
undo (CarpacePlannerWindow *window)
{
  carpace_planner_window_settle (window);
  carpace_planner_undo (window->given.planner);
}

static void
redo (CarpacePlannerWindow *window)
{
  carpace_planner_window_settle (window);
  carpace_planner_redo (window->given.planner);
}

static GtkWidget *
header_button (CarpacePlannerWindow *window, GtkAccelGroup *keys, const char *label, GCallback clicked, guint key, GdkModifierType with)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (label);

  g_signal_connect_swapped (button, "clicked", clicked, window);
  gtk_widget_add_accelerator (button, "clicked", keys, key, with, 0);
  gtk_widget_show (button);
  return button;
}

static GtkWidget *
make_header (CarpacePlannerWindow *window)
{
  GtkWidget *header = window->header = gtk_header_bar_new (), *menu = gtk_menu_button_new ();
  GtkAccelGroup *keys = gtk_accel_group_new ();
  GtkWidget *open = header_button (window, keys, _("_Open…"), G_CALLBACK (carpace_planner_files_open), GDK_KEY_o, GDK_CONTROL_MASK);

  gtk_window_add_accel_group (GTK_WINDOW (window->window), keys);
  window->undo = header_button (window, keys, _("_Undo"), G_CALLBACK (undo), GDK_KEY_z, GDK_CONTROL_MASK);
  window->redo = header_button (window, keys, _("_Redo"), G_CALLBACK (redo), GDK_KEY_z, GDK_CONTROL_MASK | GDK_SHIFT_MASK);
  gtk_widget_add_accelerator (window->redo, "clicked", keys, GDK_KEY_y, GDK_CONTROL_MASK, 0);
  window->save = header_button (window, keys, _("_Save"), G_CALLBACK (carpace_planner_files_save), GDK_KEY_s, GDK_CONTROL_MASK);
  gtk_style_context_add_class (gtk_widget_get_style_context (window->save), "carpace-primary");
  gtk_menu_button_set_popup (GTK_MENU_BUTTON (menu), carpace_planner_files_menu (window));
  gtk_button_set_image (GTK_BUTTON (menu), gtk_image_new_from_icon_name ("open-menu-symbolic", GTK_ICON_SIZE_BUTTON));
  carpace_card_name (menu, _("Menu"), NULL);
  gtk_widget_set_tooltip_text (menu, _("Menu"));
  gtk_widget_show_all (menu);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (header), open);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (header), menu);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (header), window->undo);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (header), window->redo);
  gtk_header_bar_pack_end (GTK_HEADER_BAR (header), window->save);
  gtk_header_bar_set_show_close_button (GTK_HEADER_BAR (header), TRUE);
  gtk_widget_show (header);
  g_object_unref (keys);
  return header;
}

static GtkWidget *
make_left (CarpacePlannerWindow *window)
{
  GtkWidget *left = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *title = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 12);
  GtkWidget *section = gtk_label_new (_("Practice day"));

  gtk_style_context_add_class (gtk_widget_get_style_context (section), "carpace-section");
  window->headline = carpace_part_words ("", NULL);
  gtk_box_pack_start (GTK_BOX (title), section, FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (title), window->headline, TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (title), carpace_planner_begins_new (window, CARPACE_PLANNER_BEGINS_MIN), FALSE, FALSE, 0);
  window->air = carpace_part_words ("", NULL);
  gtk_widget_set_no_show_all (window->air, TRUE);
  carpace_part_append (left, title, 12);
  carpace_part_append (left, window->air, 4);
  carpace_part_append (left, carpace_planner_rail_widget (window->rail), 8);
  window->notebook = gtk_notebook_new ();
  gtk_notebook_set_scrollable (GTK_NOTEBOOK (window->notebook), TRUE);
  gtk_widget_set_size_request (window->notebook, -1, 130); /* more where there is more; it scrolls */
  g_signal_connect (window->notebook, "switch-page", G_CALLBACK (page_shown), window);
  gtk_widget_set_no_show_all (window->notebook, TRUE);
  gtk_widget_set_margin_top (window->notebook, 8);
  gtk_box_pack_start (GTK_BOX (left), window->notebook, TRUE, TRUE, 0);
  gtk_widget_set_margin_start (left, EDGE);
  gtk_widget_set_margin_end (left, EDGE);
  return left;
}

static GtkWidget *
make_body (CarpacePlannerWindow *window)
{
  GtkWidget *all = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 0);
  GtkWidget *beside = gtk_scrolled_window_new (NULL, NULL);

  gtk_style_context_add_class (gtk_widget_get_style_context (all), "carpace-body");
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (beside), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (beside), FALSE);
  gtk_widget_set_size_request (beside, BESIDE, -1);
  gtk_widget_set_hexpand (beside, FALSE);
  gtk_container_add (GTK_CONTAINER (beside), carpace_planner_numbers_widget (window->numbers));
  gtk_box_pack_start (GTK_BOX (row), make_left (window), TRUE, TRUE, 0);
  gtk_box_pack_start (GTK_BOX (row), gtk_separator_new (GTK_ORIENTATION_VERTICAL), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (row), beside, FALSE, FALSE, 0);
  window->said = carpace_planner_said_new ();
  gtk_box_pack_start (GTK_BOX (all), carpace_planner_said_widget (window->said), FALSE, FALSE, 0);
  gtk_box_pack_start (GTK_BOX (all), row, TRUE, TRUE, 0);
  gtk_widget_show (all);
  gtk_widget_show_all (row);
  return all;
}

static gboolean
delete_event (GtkWidget *widget, GdkEvent *event, CarpacePlannerWindow *window)
{
  carpace_planner_window_close (window);
  return TRUE;
}

void
carpace_planner_window_close (CarpacePlannerWindow *window)
{
  if (carpace_planner_files_may_go (window))
    window->given.closed (window->given.self);
}

static gboolean
key_pressed (GtkWidget *widget, GdkEventKey *event, CarpacePlannerWindow *window)
{
  guint key = gdk_keyval_to_lower (event->keyval);

  if ((event->state & gtk_accelerator_get_default_mod_mask ()) != GDK_CONTROL_MASK || (key != GDK_KEY_q && key != GDK_KEY_w))
    return FALSE;
  carpace_planner_window_close (window);
  return TRUE;
}

CarpacePlannerWindow *
carpace_planner_window_new (const CarpacePlannerGiven *given)
{
  CarpacePlannerWindow *window = g_new0 (CarpacePlannerWindow, 1);
  CarpacePlannerRailOwner of_rail = { .self = window, .chosen = chosen, .done = done };
  CarpacePlannerNumbersOwner of_numbers = { .self = window, .ease = ease, .jump = jump };

  carpace_card_style ();
  window->given = *given;
  window->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (window->window, "planner-window");
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  gtk_style_context_add_class (gtk_widget_get_style_context (window->window), "carpace-window");
  gtk_window_set_titlebar (GTK_WINDOW (window->window), make_header (window));
  carpace_window_within (window->window, WIDE, HIGH);
  window->rail = carpace_planner_rail_new (given->planner, &of_rail);
  window->numbers = carpace_planner_numbers_new (given->planner, &of_numbers);
  gtk_container_add (GTK_CONTAINER (window->window), make_body (window));
  g_signal_connect (window->window, "delete-event", G_CALLBACK (delete_event), window);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (key_pressed), window);
  carpace_planner_add_blocks (window);
  carpace_planner_add_drills (window);
  carpace_planner_add_week (window);
  carpace_planner_add_rules (window);
  carpace_planner_add_file (window);
  carpace_planner_listen (given->planner, changed, window);
  return window;
}

void
carpace_planner_window_free (CarpacePlannerWindow *window)
{
  carpace_planner_listen (window->given.planner, NULL, NULL);
  /* Else each page that goes asks for the words of its tab, which has gone already (GTK 3.24). */
  gtk_notebook_set_show_tabs (GTK_NOTEBOOK (window->notebook), FALSE);
  gtk_widget_destroy (window->window);
  carpace_planner_rail_free (window->rail);
  carpace_planner_numbers_free (window->numbers);
  for (int i = 0; i < window->n_pages; i++)
    if (window->pages[i].page.free != NULL)
      window->pages[i].page.free (window->pages[i].page.self);
  g_free (window);
}

void
carpace_planner_window_show (CarpacePlannerWindow *window)
{
  if (window->n_pages > 0)
    make_page (window, gtk_notebook_get_current_page (GTK_NOTEBOOK (window->notebook)));
  changed (window);
  gtk_widget_grab_focus (carpace_planner_rail_widget (window->rail)); /* first: an entry that has had it stays marked */
  gtk_window_present (GTK_WINDOW (window->window));
}

GtkWindow *
carpace_planner_window_window (CarpacePlannerWindow *window)
{
  return GTK_WINDOW (window->window);
}
