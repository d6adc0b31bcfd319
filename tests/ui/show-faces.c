/* SPDX-License-Identifier: GPL-3.0-or-later */
/* show-faces MOMENT [EXERCISE-NUMBER | armed | small | by-itself | tap NUMBER... | input SECONDS]: the faces as they
 * are at a moment of views.c, with nothing behind them. What is told is printed. For looking at, and for pictures: in
 * the language of LANGUAGE, of PO_FOLDER where that is set, from right to left where MIRRORED is; in the corner of
 * CARDS_CORNER, a word of the settings; on another monitor than the game's where CARDS_OTHER_MONITOR is set. */
#include <glib/gi18n.h>
#include <gtk/gtk.h>
#include <stdlib.h>
#include <string.h>

#include "carpace/names.h"
#include "ui/card-place.h"
#include "ui/card.h"
#include "ui/faces.h"
#include "views.h"

static CarpaceView view;
static CarpaceGtkFaces *faces;

static bool
tell (void *self, const CarpaceEvent *event, CarpaceRefusal *ret_refusal)
{
  g_print ("told: %s %s\n", carpace_name (CARPACE_WORDS_EVENT, (int32_t) event->kind),
           event->kind == CARPACE_EVENT_RATE ? carpace_name (CARPACE_WORDS_SITE, (int32_t) event->rate.site) : "");
  if (event->kind == CARPACE_EVENT_RATE)
    {
      view.rating.open = false;
      view.rating.given = event->rate.discomfort;
      view.rating.site = event->rate.site;
      view.rating.changeable_for_ms = 60000;
      view.state = event->rate.discomfort > 5 ? CARPACE_STATE_DAY_DONE : CARPACE_STATE_WAITING;
      carpace_faces_changed (faces, &view);
    }
  return true;
}

static CarpaceInstant
now (void *self)
{
  return view_now ();
}

static const CarpaceView *
look (void *self)
{
  return &view;
}

static void
list (void *self, CarpacePlanItemVisitor visit, void *user)
{
  const CarpacePlanItem items[] = { { .word = "four-quarters", .name = "Four quarters", .in_use = true },
                                    { .word = "first-week", .name = "A first week" } };
  for (size_t i = 0; i < G_N_ELEMENTS (items); i++)
    visit (user, &items[i]);
}

static void
notify (void *self, const CarpaceNotice *notice)
{
  g_print ("notice: %s | %s\n", notice->title, notice->body);
}

static void
use_plan (void *self, const char *word)
{
  g_print ("plan: %s\n", word);
}

/* No window stands in for a tray that is not there: cards are looked at. */
static bool
first (void *self)
{
  return true;
}

static void
quit (void *self)
{
  gtk_main_quit ();
}

int
main (int argc, char **argv)
{
  const char *moment = argc > 1 ? argv[1] : "practising";
  CarpaceFacesGiven given = { .tell = { NULL, tell }, .clock = { NULL, now }, .plans = { .list = list },
                              .icon_folder = CARPACE_ICONS, .look = look, .notify = notify, .use_plan = use_plan, .quit = quit };

  g_setenv ("GDK_GL", "disable", FALSE);
  gtk_init (&argc, &argv);
  bindtextdomain ("carpace", g_getenv ("PO_FOLDER") ? g_getenv ("PO_FOLDER") : CARPACE_BUILT_PO);
  bind_textdomain_codeset ("carpace", "UTF-8");
  textdomain ("carpace");
  carpace_card_setup (&(CarpaceCardSetup){
    .corner = (CarpaceCorner) MAX (carpace_name_value (CARPACE_WORDS_CORNER, g_getenv ("CARDS_CORNER") ? g_getenv ("CARDS_CORNER") : ""), 0),
    .other_monitor = g_getenv ("CARDS_OTHER_MONITOR") != NULL, .chord = "Ctrl+Alt+H" });
  if (g_getenv ("MIRRORED"))
    gtk_widget_set_default_direction (GTK_TEXT_DIR_RTL);
  if (!view_named (moment, &view))
    {
      g_printerr ("no such moment: %s\n", moment);
      return 2;
    }
  if (argc > 2 && g_str_has_prefix (moment, "rest"))
    {
      view.rest.exercise = (CarpaceExercise) atoi (argv[2]);
      view.rest.both_sides = carpace_exercise_side (view.rest.exercise) == CARPACE_EXERCISE_FOR_BOTH_SIDES;
    }
  if (g_getenv ("CARDS_ONLY"))
    given.first = first;
  carpace_place_find_layers (carpace_card_layers);
  faces = carpace_faces_new (&given);
  carpace_faces_changed (faces, &view);
  if (argc > 2 && strcmp (argv[2], "armed") == 0)
    carpace_faces_armed (faces, true);
  if (argc > 3 && strcmp (argv[2], "input") == 0)
    {
      view.input_ms = atoi (argv[3]) * CARPACE_SECOND_MS;
      carpace_faces_changed (faces, &view);
    }
  else if (argc > 3 && strcmp (argv[2], "tap") == 0)
    for (int i = 3; i < argc; i++)
      {
        while (gtk_events_pending ())
          gtk_main_iteration ();
        carpace_faces_digit (faces, atoi (argv[i]));
      }
  else if (argc > 2 && strcmp (argv[2], "by-itself") == 0)
    ;
  else if (g_str_has_prefix (moment, "rating-given") || g_str_has_prefix (moment, "rating-above"))
    carpace_faces_open (faces, CARPACE_CUE_RATING);
  else if (g_str_has_prefix (moment, "rest"))
    carpace_faces_open (faces, CARPACE_CUE_MICRO_REST);
  else if (strcmp (moment, "why") == 0)
    carpace_faces_open (faces, CARPACE_CUE_DAY_DONE);
  if (argc > 2 && strcmp (argv[2], "small") == 0)
    carpace_faces_present (faces);
  gtk_main ();
  carpace_faces_free (faces);
  return 0;
}
