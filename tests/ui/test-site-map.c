/* SPDX-License-Identifier: GPL-3.0-or-later */
/* test-site-map.c: the drawn sites: each has its region and each region its site, all are reached by the arrow keys,
 * each lies on what is drawn and can be hit. */
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <cmocka.h>
#include <gtk/gtk.h>

#include "carpace/names.h"
#include "display.h"
#include "draw/line-drawing.h"
#include "text/face-text.h"
#include "ui/card.h"
#include "ui/site-choice.h"

#define TARGET 44
#define PATIENCE_US (20 * G_USEC_PER_SEC) /* only ever gone by in a test that fails */
#define DRAWN_LEAST 20 /* of a hundred pixels of a region */

/* ---- the table ---- */

static void
test_every_site_has_a_region_and_every_region_a_site (void **state)
{
  assert_true (carpace_n_site_regions >= CARPACE_N_SITES - 1);
  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    assert_int_equal (carpace_site_regions[site - 1].site, site); /* its own, at its place */
  for (int i = 0; i < carpace_n_site_regions; i++)
    {
      assert_true (carpace_site_regions[i].site > CARPACE_SITE_NONE);
      assert_non_null (carpace_name (CARPACE_WORDS_SITE, (int32_t) carpace_site_regions[i].site));
      for (int j = CARPACE_N_SITES - 1; j < carpace_n_site_regions; j++) /* seen again in another view only */
        if (i != j && carpace_site_regions[i].site == carpace_site_regions[j].site)
          assert_true (carpace_site_regions[i].view != carpace_site_regions[j].view);
    }
  assert_int_equal (carpace_names_count (CARPACE_WORDS_SITE), CARPACE_N_SITES);
}

static void
test_regions_are_apart_and_large_enough (void **state)
{
  for (int i = 0; i < carpace_n_site_regions; i++)
    {
      const CarpaceSiteRegion *a = &carpace_site_regions[i];

      assert_true (a->width >= TARGET && a->height >= TARGET);
      assert_true (a->x >= 0 && a->x + a->width <= CARPACE_SITE_VIEW_WIDTH);
      assert_true (a->y >= 0 && a->y + a->height <= CARPACE_SITE_VIEW_HEIGHT);
      for (int j = 0; j < i; j++)
        {
          const CarpaceSiteRegion *b = &carpace_site_regions[j];

          if (a->view == b->view && a->x < b->x + b->width && b->x < a->x + a->width && a->y < b->y + b->height
              && b->y < a->y + a->height)
            fail_msg ("%s and %s lie on each other in view %d", carpace_name (CARPACE_WORDS_SITE, (int32_t) a->site),
                      carpace_name (CARPACE_WORDS_SITE, (int32_t) b->site), a->view);
        }
    }
}

static cairo_surface_t *
picture_of (CarpaceSiteView view)
{
  const CarpaceLineColours ink = { 0 };
  g_autofree char *path = g_strdup_printf ("/org/carpace/Carpace/ui/drawings/%s.svg", carpace_site_view_file (view));
  g_autoptr (GBytes) svg = g_resources_lookup_data (path, G_RESOURCE_LOOKUP_FLAGS_NONE, NULL);
  cairo_surface_t *surface = cairo_image_surface_create (CAIRO_FORMAT_ARGB32, CARPACE_SITE_VIEW_WIDTH, CARPACE_SITE_VIEW_HEIGHT);
  cairo_t *cr = cairo_create (surface);

  assert_non_null (svg);
  assert_true (carpace_line_drawing_paint (cr, g_bytes_get_data (svg, NULL), g_bytes_get_size (svg), &ink));
  cairo_destroy (cr);
  cairo_surface_flush (surface);
  return surface;
}

static int
share_drawn (cairo_surface_t *surface, const CarpaceSiteRegion *of)
{
  const unsigned char *data = cairo_image_surface_get_data (surface);
  int stride = cairo_image_surface_get_stride (surface), drawn = 0;

  for (int y = of->y; y < of->y + of->height; y++)
    for (int x = of->x; x < of->x + of->width; x++)
      drawn += ((const uint32_t *) (const void *) (data + y * stride))[x] >> 24 > 127;
  return 100 * drawn / (of->width * of->height);
}

/* A drawing that was moved would leave its regions on nothing. */
static void
test_each_region_lies_on_what_is_drawn (void **state)
{
  for (int view = 0; view < CARPACE_N_SITE_VIEWS; view++)
    {
      cairo_surface_t *surface = picture_of ((CarpaceSiteView) view);

      for (int i = 0; i < carpace_n_site_regions; i++)
        if ((int) carpace_site_regions[i].view == view && share_drawn (surface, &carpace_site_regions[i]) < DRAWN_LEAST)
          fail_msg ("%s in view %d lies on %d %% of it", carpace_name (CARPACE_WORDS_SITE, (int32_t) carpace_site_regions[i].site), view,
                    share_drawn (surface, &carpace_site_regions[i]));
      cairo_surface_destroy (surface);
    }
}

/* ---- the arrow keys ---- */

static int
n_reached (int from, bool left, bool from_right)
{
  bool reached[32] = { false };
  int waiting[32], n = 0, done = 0;

  reached[from] = true;
  waiting[n++] = from;
  for (; done < n; done++)
    for (int way = GTK_DIR_UP; way <= GTK_DIR_RIGHT; way++)
      {
        int next = carpace_site_region_next (waiting[done], (GtkDirectionType) way, left, from_right);

        if (next >= 0 && !reached[next])
          {
            reached[next] = true;
            waiting[n++] = next;
          }
      }
  return n;
}

static void
test_arrows_lead_from_each_to_all (void **state)
{
  for (int from = 0; from < carpace_n_site_regions; from++)
    for (int which = 0; which < 4; which++)
      assert_int_equal (n_reached (from, which & 1, which & 2), carpace_n_site_regions);
}

static CarpaceSite
next_site (int from, GtkDirectionType way, bool left, bool from_right)
{
  int next = carpace_site_region_next (from, way, left, from_right);

  return next < 0 ? CARPACE_SITE_NONE : carpace_site_regions[next].site;
}

static void
test_an_arrow_leads_its_own_way (void **state)
{
  const int palm = CARPACE_SITE_PALM_SIDE - 1, fingers = CARPACE_SITE_FINGERS - 1, neck = CARPACE_SITE_NECK - 1, thumb = CARPACE_SITE_THUMB_SIDE - 1;

  assert_int_equal (next_site (palm, GTK_DIR_UP, false, false), CARPACE_SITE_FINGERS);
  assert_int_equal (next_site (palm, GTK_DIR_DOWN, false, false), CARPACE_SITE_ELBOW);
  assert_int_equal (next_site (palm, GTK_DIR_RIGHT, false, false), CARPACE_SITE_THUMB_SIDE);
  assert_int_equal (next_site (palm, GTK_DIR_LEFT, false, false), CARPACE_SITE_LITTLE_FINGER_SIDE);
  assert_int_equal (next_site (palm, GTK_DIR_LEFT, true, false), CARPACE_SITE_THUMB_SIDE); /* a left hand's */
  assert_int_equal (next_site (fingers, GTK_DIR_UP, false, false), CARPACE_SITE_NONE);
  assert_int_equal (next_site (neck, GTK_DIR_RIGHT, false, false), CARPACE_SITE_SHOULDER);
  assert_int_equal (next_site (thumb, GTK_DIR_RIGHT, false, false), CARPACE_SITE_THUMB_SIDE); /* of the back */
  assert_int_equal (next_site (thumb, GTK_DIR_RIGHT, false, true), CARPACE_SITE_NONE); /* the first view is at the right */
}

/* ---- on the screen ---- */

typedef struct { CarpaceSite site; int times; } Told;

/* GTK shows a button pressed for a moment before it tells. */
static void
wait_for (const Told *told, int times)
{
  gint64 end_us = g_get_monotonic_time () + PATIENCE_US;

  while (told->times < times && g_get_monotonic_time () < end_us)
    if (!gtk_main_iteration_do (FALSE))
      g_usleep (1000);
  assert_int_equal (told->times, times);
}

/* The next frame lays out what was moved. */
static void
lay_out (GtkWidget *window)
{
  gtk_container_check_resize (GTK_CONTAINER (window));
  gtk_test_widget_wait_for_draw (window);
}

static void
chosen (void *user, CarpaceSite site)
{
  Told *told = user;

  told->site = site;
  told->times++;
}

static GtkWidget *
shown (Told *told, GtkWidget **ret_choice)
{
  GtkWidget *window = gtk_window_new (GTK_WINDOW_TOPLEVEL);

  carpace_card_style ();
  gtk_style_context_add_class (gtk_widget_get_style_context (window), "carpace-card");
  *ret_choice = carpace_site_choice_new (chosen, told, carpace_card_button ("Back"));
  gtk_container_add (GTK_CONTAINER (window), *ret_choice);
  gtk_widget_show (window);
  display_settle ();
  return window;
}

/* GTK looks up a binding by the key itself. */
static guint16
keycode_of (guint keyval)
{
  g_autofree GdkKeymapKey *keys = NULL;
  int n = 0;

  assert_true (gdk_keymap_get_entries_for_keyval (gdk_keymap_get_for_display (gdk_display_get_default ()), keyval, &keys, &n));
  return (guint16) keys[0].keycode;
}

static void
press (GtkWidget *window, guint keyval)
{
  for (int up = 0; up <= 1; up++)
    {
      GdkEvent *event = gdk_event_new (up ? GDK_KEY_RELEASE : GDK_KEY_PRESS);

      event->key.window = g_object_ref (gtk_widget_get_window (window));
      event->key.send_event = TRUE;
      event->key.keyval = keyval;
      event->key.hardware_keycode = keycode_of (keyval);
      gdk_event_set_device (event, gdk_seat_get_keyboard (gdk_display_get_default_seat (gdk_display_get_default ())));
      gtk_main_do_event (event);
      gdk_event_free (event);
    }
  display_settle ();
}

/* Shown, each is as large as the table says and stands where it says, for either hand. */
static void
test_buttons_stand_where_the_table_says (void **state)
{
  Told told = { 0 };
  GtkWidget *choice, *window = shown (&told, &choice), *map = carpace_site_choice_map (choice);

  for (int left = 0; left <= 1; left++)
    {
      carpace_site_choice_set (choice, CARPACE_SITE_NONE, left);
      lay_out (window);
      for (int i = 0; i < carpace_n_site_regions; i++)
        {
          const CarpaceSiteRegion *of = &carpace_site_regions[i];
          GtkWidget *button = carpace_site_map_button (map, i);
          AtkObject *accessible = gtk_widget_get_accessible (button);
          GtkAllocation is;
          int x, y;

          gtk_widget_get_allocation (button, &is);
          gtk_widget_translate_coordinates (button, gtk_widget_get_parent (button), 0, 0, &x, &y);
          assert_int_equal (is.width, of->width);
          assert_int_equal (is.height, of->height);
          assert_int_equal (x, left ? CARPACE_SITE_VIEW_WIDTH - of->x - of->width : of->x);
          assert_int_equal (y, of->y);
          assert_string_equal (atk_object_get_name (accessible), carpace_text_site (of->site));
          assert_int_equal (atk_object_get_role (accessible), ATK_ROLE_PUSH_BUTTON);
        }
    }
  gtk_widget_destroy (window);
}

static void
test_space_and_return_mark_what_the_arrows_reached (void **state)
{
  Told told = { 0 };
  GtkWidget *choice, *window = shown (&told, &choice), *map = carpace_site_choice_map (choice);

  gtk_widget_grab_focus (carpace_site_map_button (map, CARPACE_SITE_PALM_SIDE - 1));
  press (window, GDK_KEY_Right);
  assert_ptr_equal (gtk_window_get_focus (GTK_WINDOW (window)), carpace_site_map_button (map, CARPACE_SITE_THUMB_SIDE - 1));
  press (window, GDK_KEY_space);
  wait_for (&told, 1);
  assert_int_equal (told.site, CARPACE_SITE_THUMB_SIDE);
  press (window, GDK_KEY_Up);
  press (window, GDK_KEY_Up); /* nothing is above: it stays */
  press (window, GDK_KEY_Return);
  wait_for (&told, 2);
  assert_int_equal (told.site, CARPACE_SITE_FINGERS);
  gtk_widget_destroy (window);
}

static void
test_words_stand_under_their_view (void **state)
{
  Told told = { 0 };
  GtkWidget *choice, *window = shown (&told, &choice), *map = carpace_site_choice_map (choice);

  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    {
      GtkWidget *word = carpace_site_choice_word (choice, (CarpaceSite) site), *region = carpace_site_map_button (map, site - 1);
      int x, y, left, right;

      gtk_widget_translate_coordinates (region, choice, gtk_widget_get_allocated_width (region) / 2, 0, &x, &y);
      gtk_widget_translate_coordinates (word, choice, 0, 0, &left, &y);
      right = left + gtk_widget_get_allocated_width (word);
      assert_true (left <= x && x <= right);
      assert_true (gtk_widget_get_allocated_height (word) >= TARGET);
    }
  carpace_site_choice_set_small (choice, true);
  assert_false (gtk_widget_get_visible (map));
  gtk_widget_destroy (window);
}

static void
test_what_is_given_is_marked_in_both (void **state)
{
  Told told = { 0 };
  GtkWidget *choice, *window = shown (&told, &choice), *map = carpace_site_choice_map (choice);

  carpace_site_choice_set (choice, CARPACE_SITE_ELBOW, false);
  for (int i = 0; i < carpace_n_site_regions; i++)
    assert_int_equal (gtk_style_context_has_class (gtk_widget_get_style_context (carpace_site_map_button (map, i)), "given"),
                      carpace_site_regions[i].site == CARPACE_SITE_ELBOW);
  for (int site = CARPACE_SITE_NONE + 1; site < CARPACE_N_SITES; site++)
    assert_int_equal (gtk_style_context_has_class (
                        gtk_widget_get_style_context (carpace_site_choice_word (choice, (CarpaceSite) site)), "given"),
                      site == CARPACE_SITE_ELBOW);
  gtk_widget_destroy (window);
}

int
main (void)
{
  const struct CMUnitTest tests[] = {
    cmocka_unit_test (test_every_site_has_a_region_and_every_region_a_site),
    cmocka_unit_test (test_regions_are_apart_and_large_enough),
    cmocka_unit_test (test_each_region_lies_on_what_is_drawn),
    cmocka_unit_test (test_arrows_lead_from_each_to_all),
    cmocka_unit_test (test_an_arrow_leads_its_own_way),
    cmocka_unit_test (test_buttons_stand_where_the_table_says),
    cmocka_unit_test (test_space_and_return_mark_what_the_arrows_reached),
    cmocka_unit_test (test_words_stand_under_their_view),
    cmocka_unit_test (test_what_is_given_is_marked_in_both),
  };

  display_open ();
  return cmocka_run_group_tests (tests, NULL, NULL);
}
