/* SPDX-License-Identifier: GPL-3.0-or-later */
/* settings-window.c: a control a row, by what its value is. */
#include "ui/settings-window.h"

#include <glib/gi18n.h>
#include <string.h>

#include "text/settings-text.h"
#include "ui/card.h"
#include "ui/chord-field.h"

#define WIDTH 440
#define EDGE 20
#define PART 16
#define TALLEST 620
#define MOST_WORDS CARPACE_N_CORNERS
#define BESIDE_CHECK 28 /* where a check box's words begin */

typedef struct
{
  CarpaceSettingsWindow *window;
  CarpaceSettingId id;
  GtkWidget *control; /* a check button, an entry, or a grid of the words */
  GtkWidget *words[MOST_WORDS];
  GtkWidget *fault;
  bool refused; /* what was tried last; its fault stays until something else is tried */
} Row;

struct CarpaceSettingsWindow
{
  CarpaceSettingsGiven given;
  GtkWidget *window, *scrolled, *body;
  Row rows[CARPACE_N_SETTINGS], *tried;
  bool drawing;
};

static bool
is_flag (const Row *row)
{
  return carpace_setting_rows[row->id].kind == CARPACE_SETTING_FLAG;
}

static bool
is_word (const Row *row)
{
  return carpace_setting_rows[row->id].kind == CARPACE_SETTING_WORD;
}

/* An entry that is empty shows what is usual. */
static const char *
held_text (const Row *row)
{
  const char *text = carpace_setting_text (row->window->given.look (row->window->given.self), row->id);

  return text ? text : "";
}

static void
say_fault (Row *row, const char *fault)
{
  carpace_card_say (row->fault, fault ? fault : "");
}

/* Of what stands there now. */
static void
say_what_is_wrong (Row *row)
{
  g_autofree char *wrong = row->window->given.wrong (row->window->given.self, row->id);

  row->refused = false;
  say_fault (row, wrong);
}

static void
set (Row *row, const char *text)
{
  g_autofree char *fault = row->window->given.set (row->window->given.self, row->id, text);

  row->window->tried = row;
  if (fault)
    say_fault (row, fault);
  else
    say_what_is_wrong (row);
  row->refused = fault != NULL;
}

static void
flag_toggled (GtkToggleButton *control, Row *row)
{
  if (row->window->drawing)
    return;
  set (row, gtk_toggle_button_get_active (control) ? "true" : "false");
  carpace_settings_window_changed (row->window); /* as it is, where it could not be written */
}

static void
word_toggled (GtkToggleButton *control, Row *row)
{
  CarpaceWords set_of = carpace_setting_rows[row->id].words;

  if (row->window->drawing || !gtk_toggle_button_get_active (control))
    return;
  for (int32_t i = 0; i < carpace_names_count (set_of); i++)
    if (row->words[i] == GTK_WIDGET (control))
      set (row, carpace_name (set_of, i));
  carpace_settings_window_changed (row->window); /* as it is, where it could not be written */
}

static void
take_text (Row *row)
{
  const char *text = gtk_entry_get_text (GTK_ENTRY (row->control));

  if (strcmp (text, held_text (row)) == 0)
    say_what_is_wrong (row);
  else
    set (row, *text ? text : NULL);
}

static gboolean
entry_left (GtkWidget *control, GdkEvent *event, Row *row)
{
  take_text (row);
  return FALSE;
}

/* ---- rows ---- */

static void
append (GtkWidget *box, GtkWidget *child, int space)
{
  gtk_widget_set_margin_top (child, space);
  gtk_box_pack_start (GTK_BOX (box), child, FALSE, FALSE, 0);
}

static GtkWidget *
words (const char *text, const char *class)
{
  GtkWidget *label = gtk_label_new (text);

  gtk_label_set_line_wrap (GTK_LABEL (label), TRUE);
  gtk_label_set_max_width_chars (GTK_LABEL (label), 1);
  gtk_label_set_xalign (GTK_LABEL (label), 0);
  gtk_widget_set_hexpand (label, TRUE);
  if (class)
    gtk_style_context_add_class (gtk_widget_get_style_context (label), class);
  return label;
}

static GtkWidget *
flag_control (Row *row)
{
  GtkWidget *control = gtk_check_button_new (), *label = words (carpace_text_setting (row->id), NULL);

  gtk_container_add (GTK_CONTAINER (control), label);
  g_signal_connect (control, "toggled", G_CALLBACK (flag_toggled), row);
  return control;
}

static GtkWidget *
text_control (Row *row, GtkWidget *box)
{
  GtkWidget *control = gtk_entry_new (), *label = words (carpace_text_setting (row->id), NULL);
  const char *usual = carpace_setting_rows[row->id].usual;

  gtk_label_set_mnemonic_widget (GTK_LABEL (label), control);
  gtk_entry_set_width_chars (GTK_ENTRY (control), 1);
  if (usual)
    gtk_entry_set_placeholder_text (GTK_ENTRY (control), usual);
  g_signal_connect_swapped (control, "activate", G_CALLBACK (take_text), row);
  g_signal_connect (control, "focus-out-event", G_CALLBACK (entry_left), row);
  append (box, label, 4);
  return control;
}

/* All words stand there to be read: a menu would hide them. */
static GtkWidget *
word_control (Row *row, GtkWidget *box)
{
  GtkWidget *control = gtk_grid_new ();
  bool corners = row->id == CARPACE_SETTING_CARDS_CORNER; /* stand as on the screen */
  bool from_right = gtk_widget_get_default_direction () == GTK_TEXT_DIR_RTL;
  int32_t n = carpace_names_count (carpace_setting_rows[row->id].words);

  g_assert (n <= MOST_WORDS);
  append (box, words (carpace_text_setting (row->id), NULL), 4);
  for (int32_t i = 0; i < n; i++)
    {
      const char *word = carpace_text_setting_word (row->id, i, from_right);
      g_autofree char *spoken = g_strdup_printf ("%s: %s", carpace_text_setting (row->id), word);
      GtkRadioButton *first = i > 0 ? GTK_RADIO_BUTTON (row->words[0]) : NULL;

      row->words[i] = gtk_radio_button_new_from_widget (first);
      gtk_container_add (GTK_CONTAINER (row->words[i]), words (word, NULL));
      carpace_card_name (row->words[i], spoken, carpace_text_setting_hint (row->id));
      g_signal_connect (row->words[i], "toggled", G_CALLBACK (word_toggled), row);
      gtk_grid_attach (GTK_GRID (control), row->words[i], corners && carpace_corner_is_at_end ((CarpaceCorner) i),
                       corners ? carpace_corner_is_low ((CarpaceCorner) i) : i, 1, 1);
    }
  return control;
}

static void
try_clicked (CarpaceSettingsWindow *window)
{
  window->given.try_sound (window->given.self);
}

static GtkWidget *
try_button (CarpaceSettingsWindow *window)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_("_Try"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  carpace_card_name (button, _("Try the sound"), NULL);
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (try_clicked), window);
  return button;
}

static void
chord_pressed (void *user, const char *chord)
{
  Row *row = user;

  gtk_entry_set_text (GTK_ENTRY (row->control), chord);
  take_text (row);
}

static GtkWidget *
chord_button (Row *row)
{
  GtkWidget *button = carpace_chord_field_new (chord_pressed, row);

  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  return button;
}

/* What is wrong with what was tried is said where it is seen, further down, too. */
static void
fault_placed (GtkWidget *fault, GdkRectangle *place, CarpaceSettingsWindow *window)
{
  bool tried = window->tried && window->tried->fault == fault;
  GtkAdjustment *along = gtk_scrolled_window_get_vadjustment (GTK_SCROLLED_WINDOW (window->scrolled));
  int y;

  if (tried && gtk_widget_get_visible (fault) && gtk_widget_translate_coordinates (fault, window->body, 0, 0, NULL, &y))
    gtk_adjustment_clamp_page (along, y, y + place->height);
}

static void
add_row (CarpaceSettingsWindow *window, GtkWidget *box, CarpaceSettingId id)
{
  Row *row = &window->rows[id];
  GtkWidget *hint = words (carpace_text_setting_hint (id), "carpace-hint");

  *row = (Row) { .window = window, .id = id, .fault = words ("", "carpace-strong") };
  row->control = is_flag (row) ? flag_control (row) : is_word (row) ? word_control (row, box) : text_control (row, box);
  carpace_card_name (row->control, carpace_text_setting (id), carpace_text_setting_hint (id));
  append (box, row->control, is_flag (row) ? 0 : 4);
  if (id == CARPACE_SETTING_CHORD)
    append (box, chord_button (row), 4);
  append (box, row->fault, 4);
  append (box, hint, is_flag (row) ? 0 : 4);
  if (is_flag (row))
    gtk_widget_set_margin_start (hint, BESIDE_CHECK);
  g_signal_connect (row->fault, "size-allocate", G_CALLBACK (fault_placed), window);
  atk_object_set_role (gtk_widget_get_accessible (row->fault), ATK_ROLE_ALERT);
  if (id == CARPACE_SETTING_SOUND && window->given.try_sound)
    append (box, try_button (window), 8);
}

static void
sharing_clicked (CarpaceSettingsWindow *window)
{
  window->given.open_sharing (window->given.self);
}

/* What is shared is no setting: its window is another one. */
static void
add_sharing (CarpaceSettingsWindow *window, GtkWidget *box)
{
  GtkWidget *button = gtk_button_new_with_mnemonic (_("_Who may read, and what…"));

  gtk_widget_set_halign (button, GTK_ALIGN_START);
  gtk_style_context_add_class (gtk_widget_get_style_context (button), "carpace-plain");
  g_signal_connect_swapped (button, "clicked", G_CALLBACK (sharing_clicked), window);
  append (box, words (_("Sharing"), "carpace-section"), PART);
  append (box, button, 8);
}

static GtkWidget *
all_rows (CarpaceSettingsWindow *window)
{
  GtkWidget *box = gtk_box_new (GTK_ORIENTATION_VERTICAL, 0);
  const char *part = "";

  g_object_set (box, "margin", EDGE, NULL);
  gtk_style_context_add_class (gtk_widget_get_style_context (box), "carpace-body");
  for (int id = 0; id < CARPACE_N_SETTINGS; id++)
    {
      const char *of = carpace_text_setting_part ((CarpaceSettingId) id);

      if (strcmp (of, part) != 0)
        append (box, words (of, "carpace-section"), *part ? PART : 0);
      else
        append (box, gtk_box_new (GTK_ORIENTATION_VERTICAL, 0), 8);
      part = of;
      add_row (window, box, (CarpaceSettingId) id);
    }
  if (window->given.open_sharing)
    add_sharing (window, box);
  gtk_widget_show_all (box);
  for (int id = 0; id < CARPACE_N_SETTINGS; id++)
    gtk_widget_hide (window->rows[id].fault);
  return box;
}

static gboolean
key_pressed (GtkWidget *window, GdkEventKey *event, gpointer user)
{
  GtkWidget *focus = gtk_window_get_focus (GTK_WINDOW (window));

  if (GTK_IS_TOGGLE_BUTTON (focus) && !GTK_IS_CHECK_BUTTON (focus) && gtk_toggle_button_get_active (GTK_TOGGLE_BUTTON (focus)))
    return gtk_window_propagate_key_event (GTK_WINDOW (window), event); /* keys are being chosen */
  if (event->keyval != GDK_KEY_Escape)
    return FALSE;
  gtk_widget_hide (window);
  return TRUE;
}

static GtkWidget *
title_bar (void)
{
  GtkWidget *bar = gtk_header_bar_new ();

  gtk_header_bar_set_title (GTK_HEADER_BAR (bar), _("Settings"));
  gtk_header_bar_set_show_close_button (GTK_HEADER_BAR (bar), TRUE);
  gtk_header_bar_set_decoration_layout (GTK_HEADER_BAR (bar), ":close");
  gtk_widget_show (bar);
  return bar;
}

CarpaceSettingsWindow *
carpace_settings_window_new (const CarpaceSettingsGiven *given)
{
  CarpaceSettingsWindow *window = g_new0 (CarpaceSettingsWindow, 1);
  GtkWidget *scrolled = window->scrolled = gtk_scrolled_window_new (NULL, NULL);

  carpace_card_style ();
  window->given = *given;
  window->window = gtk_window_new (GTK_WINDOW_TOPLEVEL);
  gtk_widget_set_name (window->window, "settings-window");
  gtk_window_set_title (GTK_WINDOW (window->window), _("Settings"));
  gtk_window_set_icon_name (GTK_WINDOW (window->window), "org.carpace.Carpace");
  gtk_window_set_titlebar (GTK_WINDOW (window->window), title_bar ());
  gtk_window_set_default_size (GTK_WINDOW (window->window), WIDTH, -1);
  gtk_style_context_add_class (gtk_widget_get_style_context (window->window), "carpace-window");
  g_signal_connect (window->window, "delete-event", G_CALLBACK (gtk_widget_hide_on_delete), NULL);
  g_signal_connect (window->window, "key-press-event", G_CALLBACK (key_pressed), NULL);
  gtk_scrolled_window_set_policy (GTK_SCROLLED_WINDOW (scrolled), GTK_POLICY_NEVER, GTK_POLICY_AUTOMATIC);
  gtk_scrolled_window_set_propagate_natural_height (GTK_SCROLLED_WINDOW (scrolled), TRUE);
  gtk_scrolled_window_set_overlay_scrolling (GTK_SCROLLED_WINDOW (scrolled), FALSE);
  gtk_scrolled_window_set_max_content_height (GTK_SCROLLED_WINDOW (scrolled), TALLEST);
  gtk_widget_set_size_request (scrolled, WIDTH, 240);
  gtk_container_add (GTK_CONTAINER (scrolled), window->body = all_rows (window));
  gtk_container_add (GTK_CONTAINER (window->window), scrolled);
  gtk_widget_show (scrolled);
  return window;
}

void
carpace_settings_window_free (CarpaceSettingsWindow *window)
{
  if (!window)
    return;
  window->drawing = true;
  gtk_widget_destroy (window->window);
  g_free (window);
}

GtkWindow *
carpace_settings_window_window (CarpaceSettingsWindow *window)
{
  return GTK_WINDOW (window->window);
}

void
carpace_settings_window_changed (CarpaceSettingsWindow *window)
{
  const CarpaceSettings *settings = window->given.look (window->given.self);

  window->drawing = true;
  for (int id = 0; id < CARPACE_N_SETTINGS; id++)
    {
      Row *row = &window->rows[id];

      if (is_flag (row))
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (row->control), carpace_setting_flag (settings, row->id));
      else if (is_word (row))
        gtk_toggle_button_set_active (GTK_TOGGLE_BUTTON (row->words[carpace_setting_word (settings, row->id)]), TRUE);
      else if (!gtk_widget_has_focus (row->control) && !row->refused)
        gtk_entry_set_text (GTK_ENTRY (row->control), held_text (row));
      if (!row->refused)
        say_what_is_wrong (row);
    }
  window->drawing = false;
}

void
carpace_settings_window_show (CarpaceSettingsWindow *window)
{
  carpace_settings_window_changed (window);
  gtk_window_present (GTK_WINDOW (window->window));
}

void
carpace_settings_window_hide (CarpaceSettingsWindow *window)
{
  gtk_widget_hide (window->window);
}
