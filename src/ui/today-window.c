/* SPDX-License-Identifier: GPL-3.0-or-later */
/* today-window.c: five texts, a rail, two buttons and a menu, from one view. */
#include "ui/today-window.h"

#include <glib/gi18n.h>

#include "text/today-text.h"
#include "ui/card.h"
#include "ui/day-rail.h"
#include "ui/menu.h"
#include "ui/part-words.h"
#include "ui/today-note.h"

#define WIDTH_EM 27 /* 360 px where text is of the usual size */
#define EDGE 20
#define PART 16
#define TARGET 44

struct CarpaceTodayWindow
{
  const CarpaceOwner *owner;
  GtkWidget *window, *content, *head, *headline, *what, *rail_place, *rail, *done, *next, *primary, *decision, *why, *second, *note;
  CarpaceMenu *menu;
  GtkWidget *menu_button;
  GtkWidget *plans; /* the menu of them, from the last time it was asked for */
  CarpaceTodayWords words;
  CarpaceItem items[CARPACE_N_ITEMS];
  CarpaceItemId primary_id, second_id;
  bool calm;
  bool has_why;
  int em, line; /* of the text, as room was last made for it */
  unsigned draws;
};

static void
add_class (GtkWidget *widget, const char *name)
{
  gtk_style_context_add_class (gtk_widget_get_style_context (widget), name);
}

/* ---- what is pressed ---- */

static void
show_menu (GtkMenu *menu, GtkWidget *at)
{
  gtk_menu_popup_at_widget (menu, at, GDK_GRAVITY_SOUTH_WEST, GDK_GRAVITY_NORTH_WEST, NULL);
  gtk_menu_shell_select_first (GTK_MENU_SHELL (menu), TRUE);
}

static void
menu_clicked (CarpaceTodayWindow *today)
{
  carpace_menu_plans_changed (today->menu);
  show_menu (carpace_menu_widget (today->menu), today->menu_button);
}

/* The plans there are, under the button that asks for one; as they are now, and whole
 * before they are shown: a menu that is filled while it opens has no place. */
static void
choose_plan (CarpaceTodayWindow *today)
{
  if (today->plans)
    gtk_widget_destroy (today->plans);
  today->plans = gtk_menu_new ();
  add_class (today->plans, "carpace-menu");
  gtk_menu_attach_to_widget (GTK_MENU (today->plans), today->window, NULL);
  today->owner->fill_plans (today->owner->self, GTK_MENU_SHELL (today->plans));
  show_menu (GTK_MENU (today->plans), today->primary);
}

static void
primary_clicked (CarpaceTodayWindow *today)
{
  if (today->primary_id == CARPACE_ITEM_PLAN)
    choose_plan (today);
  else if (today->primary_id < CARPACE_N_ITEMS)
    today->owner->choose (today->owner->self, today->primary_id);
}

static void
second_clicked (CarpaceTodayWindow *today)
{
  if (today->second_id < CARPACE_N_ITEMS)
    today->owner->choose (today->owner->self, today->second_id);
}

static void
why_clicked (CarpaceTodayWindow *today)
{
  today->owner->choose (today->owner->self, CARPACE_ITEM_WHY);
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, CarpaceTodayWindow *today)
{
  if (event->keyval == GDK_KEY_F10)
    menu_clicked (today);
  else if (event->keyval == GDK_KEY_Escape)
    gtk_widget_hide (window);
  else
    return FALSE;
  return TRUE;
}

/* ---- parts ---- */

static GtkWidget *
words (const char *class)
{
  GtkWidget *label = carpace_part_words ("", class);

  gtk_label_set_yalign (GTK_LABEL (label), 0);
  return label;
}

static GtkWidget *
button (GtkWidget *label, const char *class, void (*clicked) (CarpaceTodayWindow *today), CarpaceTodayWindow *today)
{
  GtkWidget *made = gtk_button_new ();

  gtk_container_add (GTK_CONTAINER (made), label);
  add_class (made, class);
  g_signal_connect_swapped (made, "clicked", G_CALLBACK (clicked), today);
  return made;
}

static GtkWidget *
primary_button (CarpaceTodayWindow *today)
{
  GtkWidget *label = words (NULL);

  gtk_label_set_xalign (GTK_LABEL (label), 0.5);
  gtk_label_set_yalign (GTK_LABEL (label), 0.5);
  gtk_label_set_justify (GTK_LABEL (label), GTK_JUSTIFY_CENTER);
  return button (label, "carpace-primary", primary_clicked, today);
}

static void
append (GtkWidget *box, GtkWidget *child, int space)
{
  gtk_widget_set_margin_top (child, space);
  gtk_box_pack_start (GTK_BOX (box), child, FALSE, FALSE, 0);
}

static GtkWidget *
foot (CarpaceTodayWindow *today)
{
  GtkWidget *row = gtk_box_new (GTK_ORIENTATION_HORIZONTAL, 8);

  GtkWidget *why = gtk_label_new (_("Why?")), *second = gtk_label_new ("");

  gtk_label_set_xalign (GTK_LABEL (why), 0); /* their words stand in line with the others */
  gtk_label_set_xalign (GTK_LABEL (second), 1);
  today->why = button (why, "carpace-quiet", why_clicked, today);
  today->second = button (second, "carpace-quiet", second_clicked, today);
  gtk_widget_set_size_request (row, -1, TARGET); /* with nothing in it, too */
  gtk_box_pack_start (GTK_BOX (row), today->why, FALSE, FALSE, 0);
  gtk_box_pack_end (GTK_BOX (row), today->second, FALSE, FALSE, 0);
  return row;
}

static GtkWidget *
content (CarpaceTodayWindow *today)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), *row = foot (today);

  g_object_set (box, "margin", EDGE, NULL);
  gtk_widget_set_margin_bottom (box, 8);
  today->head = gtk_box_new (GTK_ORIENTATION_VERTICAL, 4);
  append (today->head, today->headline = words ("carpace-headline"), 0);
  append (today->head, today->what = words (NULL), 0);
  append (box, today->head, 0);
  append (box, today->rail_place = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), PART);
  append (today->rail_place, today->rail = carpace_day_rail_new (), 0);
  append (box, today->done = words ("carpace-strong"), PART);
  append (box, today->next = words (NULL), 4);
  append (box, today->primary = primary_button (today), PART);
  append (box, gtk_separator_new (GTK_ORIENTATION_HORIZONTAL), PART);
  append (box, today->decision = words (NULL), PART);
  append (box, today->note = carpace_today_note_new (today->owner), PART);
  gtk_box_pack_end (GTK_BOX (box), row, FALSE, FALSE, 0);
  atk_object_set_role (gtk_widget_get_accessible (today->headline), ATK_ROLE_HEADING);
  return box;
}

static GtkWidget *
title_bar (CarpaceTodayWindow *today)
{
  GtkWidget *bar = gtk_header_bar_new (), *image = gtk_image_new_from_icon_name ("open-menu-symbolic", GTK_ICON_SIZE_BUTTON);

  gtk_header_bar_set_title (GTK_HEADER_BAR (bar), _("Today"));
  gtk_header_bar_set_show_close_button (GTK_HEADER_BAR (bar), TRUE);
  gtk_header_bar_set_decoration_layout (GTK_HEADER_BAR (bar), ":close");
  today->menu_button = button (image, "image-button", menu_clicked, today);
  carpace_card_name (today->menu_button, _("Menu"), NULL);
  gtk_header_bar_pack_start (GTK_HEADER_BAR (bar), today->menu_button);
  gtk_widget_show_all (bar);
  return bar;
}

/* ---- sizes ---- */

static int
line_height (GtkWidget *widget)
{
  PangoContext *context = gtk_widget_get_pango_context (widget);
  PangoFontMetrics *metrics = pango_context_get_metrics (context, NULL, NULL);
  int height = (pango_font_metrics_get_ascent (metrics) + pango_font_metrics_get_descent (metrics)) / PANGO_SCALE;

  pango_font_metrics_unref (metrics);
  return height + 1;
}

/* Room for the longest of the states: what is shorter leaves it free. */
static void
reserve (CarpaceTodayWindow *today)
{
  int em = (int) (carpace_em_of (today->what) + 0.5), line = line_height (today->what), rail;

  if (em == today->em && line == today->line) /* of a style only colours have changed */
    return;
  today->em = em;
  today->line = line;
  gtk_widget_set_size_request (today->content, MAX (WIDTH_EM * em, 360) - 2 * EDGE, -1);
  gtk_widget_set_size_request (today->head, -1, 4 * line + 8); /* a headline of two lines, and one below */
  gtk_widget_get_size_request (today->rail, NULL, &rail);
  gtk_widget_set_size_request (today->rail_place, -1, rail); /* its place stays where it is not shown */
  gtk_widget_set_size_request (today->done, -1, line);
  gtk_widget_set_size_request (today->next, -1, line);
  gtk_widget_set_size_request (today->decision, -1, 4 * line);
}

/* A part that needs more than was reserved keeps it. */
static void
keep_height (GtkWidget *widget, int width)
{
  int asked, needed;

  gtk_widget_get_size_request (widget, NULL, &asked);
  gtk_widget_get_preferred_height_for_width (widget, width, NULL, &needed);
  needed -= gtk_widget_get_margin_top (widget);
  if (needed > asked)
    gtk_widget_set_size_request (widget, -1, needed);
}

static void
keep_heights (CarpaceTodayWindow *today)
{
  int width;

  gtk_widget_get_size_request (today->content, &width, NULL);
  keep_height (today->head, width);
  keep_height (today->next, width);
  keep_height (today->decision, width);
}

CarpaceTodayWindow *
carpace_today_window_new (const CarpaceOwner *owner)
{
  CarpaceTodayWindow *today = g_new0 (CarpaceTodayWindow, 1);

  carpace_card_style ();
  today->owner = owner;
  today->primary_id = today->second_id = CARPACE_N_ITEMS;
  today->menu = carpace_menu_new (owner);
  today->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (today->window, "today-window");
  gtk_window_set_title (GTK_WINDOW (today->window), _("Today"));
  gtk_window_set_icon_name (GTK_WINDOW (today->window), "org.carpace.Carpace");
  gtk_window_set_titlebar (GTK_WINDOW (today->window), title_bar (today));
  gtk_window_set_resizable (GTK_WINDOW (today->window), FALSE);
  add_class (today->window, "carpace-window");
  g_signal_connect (today->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_signal_connect (today->window, "key-press-event", G_CALLBACK (key_pressed), today);
  gtk_menu_attach_to_widget (carpace_menu_widget (today->menu), today->window, NULL);
  today->content = content (today);
  add_class (today->content, "carpace-body");
  gtk_container_add (GTK_CONTAINER (today->window), today->content);
  gtk_widget_show_all (today->content);
  reserve (today);
  g_signal_connect_swapped (today->what, "style-updated", G_CALLBACK (reserve), today);
  return today;
}

void
carpace_today_window_free (CarpaceTodayWindow *today)
{
  if (!today)
    return;
  carpace_menu_free (today->menu);
  gtk_widget_destroy (today->window);
  carpace_today_words_clear (&today->words);
  carpace_items_clear (today->items);
  g_free (today);
}

void
carpace_today_window_hide (CarpaceTodayWindow *today)
{
  gtk_widget_hide (today->window);
}

bool
carpace_today_window_is_shown (const CarpaceTodayWindow *today)
{
  return gtk_widget_get_visible (today->window);
}

GtkWindow *
carpace_today_window_window (CarpaceTodayWindow *today)
{
  return GTK_WINDOW (today->window);
}

GtkMenu *
carpace_today_window_menu (CarpaceTodayWindow *today)
{
  return carpace_menu_widget (today->menu);
}

void
carpace_today_window_set_card_again (CarpaceTodayWindow *today, bool waits, const char *chord)
{
  carpace_menu_set_card_again (today->menu, waits, chord);
}

void
carpace_today_window_set_note (CarpaceTodayWindow *today, const char *by, const char *text)
{
  carpace_today_note_set (today->note, by, text);
}

unsigned
carpace_today_window_draws (const CarpaceTodayWindow *today)
{
  return today->draws;
}

/* ---- drawing ---- */

/* @return whether it differs */
static bool
say (GtkWidget *label, char **kept, char **text)
{
  char *old = *kept;
  bool differs = g_strcmp0 (old, *text) != 0;

  *kept = g_steal_pointer (text);
  g_free (old);
  if (differs)
    gtk_label_set_text (GTK_LABEL (label), *kept);
  return differs;
}

static bool
draw_words (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceTodayWords new;
  bool differs;

  carpace_text_today (view, now, &new);
  differs = say (today->headline, &today->words.headline, &new.headline);
  differs |= say (today->what, &today->words.what, &new.what);
  differs |= say (today->done, &today->words.done, &new.done);
  differs |= say (today->next, &today->words.next, &new.next);
  differs |= say (today->decision, &today->words.decision, &new.decision);
  if (differs)
    keep_heights (today);
  return differs;
}

static bool
draw_rail (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now)
{
  CarpaceDayRail *day = g_new0 (CarpaceDayRail, 1);
  bool differs;

  if (!view->on_air)
    carpace_day_rail (view, now, day);
  if (gtk_widget_get_visible (today->rail) == view->on_air)
    gtk_widget_set_visible (today->rail, !view->on_air);
  differs = carpace_day_rail_set (today->rail, day);
  g_free (day);
  return differs;
}

static bool
draw_button (GtkWidget *made, CarpaceItemId id, CarpaceItem *items)
{
  GtkWidget *label = gtk_bin_get_child (GTK_BIN (made));
  const char *text = id == CARPACE_N_ITEMS ? "" : id == CARPACE_ITEM_PLAN ? _("Choose a block plan…") : items[id].label;
  bool differs = g_strcmp0 (gtk_label_get_text (GTK_LABEL (label)), text) != 0;

  if (differs)
    gtk_label_set_text (GTK_LABEL (label), text);
  if (gtk_widget_get_visible (made) != (id < CARPACE_N_ITEMS))
    gtk_widget_set_visible (made, id < CARPACE_N_ITEMS);
  return differs;
}

static bool
draw_buttons (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now)
{
  bool differs, why = !view->on_air && view->plan != NULL && !view->day_over;
  bool was_calm = today->calm;

  carpace_items_clear (today->items);
  carpace_items_make (view, now, today->items);
  today->primary_id = carpace_items_primary (view, &today->calm);
  today->second_id = carpace_items_second (view);
  differs = draw_button (today->primary, today->primary_id, today->items);
  differs |= draw_button (today->second, today->second_id, today->items);
  differs |= was_calm != today->calm || why != today->has_why;
  today->has_why = why;
  if (gtk_widget_get_visible (today->why) != why)
    gtk_widget_set_visible (today->why, why);
  if (today->calm)
    add_class (today->primary, "calm");
  else
    gtk_style_context_remove_class (gtk_widget_get_style_context (today->primary), "calm");
  return differs;
}

static void
draw (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now)
{
  bool differs = draw_words (today, view, now);

  differs |= draw_rail (today, view, now);
  differs |= draw_buttons (today, view, now);
  differs |= carpace_today_note_draw (today->note, view->on_air);
  differs |= carpace_menu_draw (today->menu, view, now);
  today->draws += differs;
}

void
carpace_today_window_draw (CarpaceTodayWindow *today, const CarpaceView *view, CarpaceInstant now)
{
  if (carpace_today_window_is_shown (today))
    draw (today, view, now);
}

void
carpace_today_window_show (CarpaceTodayWindow *today, bool present, const CarpaceView *view, CarpaceInstant now)
{
  draw (today, view, now);
  gtk_window_set_focus_on_map (GTK_WINDOW (today->window), present);
  if (present)
    gtk_window_present (GTK_WINDOW (today->window));
  else
    gtk_widget_show (today->window);
  if (present)
    gtk_widget_grab_focus (today->primary);
}
