/* SPDX-License-Identifier: GPL-3.0-or-later */
/* planner-rail.c: a drawing area over draw/plan-paint.h; what is held is tried, and taken when it is let go. */
#include "ui/planner-rail.h"

#include <glib/gi18n.h>
#include <math.h>

#include "app/on-air.h"
#include "text/plan-rail-text.h"
#include "ui/card.h"
#include "ui/day-rail.h"

#define MOVED_PX 6 /* less is a click */

struct CarpacePlannerRail
{
  CarpacePlanner *planner;
  CarpacePlannerRailOwner owner;
  GtkWidget *area;
  PangoLayout *layout;
  int32_t begins_min, block, part;
  CarpaceHold held;        /* by the mouse; NOTHING: none */
  bool moved;
  double from_x, scale;    /* where it was taken hold of; px of the longest block then */
  CarpacePlanRail rail;    /* and how all lay */
  CarpacePlan *base;       /* the plan then */
  GdkCursor *cursors[2];   /* over a border, over a block */
};

static CarpaceInstant
begins (const CarpacePlannerRail *rail)
{
  return (CarpaceInstant) { .wall_ms = rail->begins_min * CARPACE_MINUTE_MS };
}

static bool
is_held (const CarpacePlannerRail *rail)
{
  return rail->held.kind != CARPACE_HOLD_NOTHING;
}

/* Those that begin before the last block ends, for who goes on air as the first begins. */
static void
have_air (const CarpacePlan *plan, CarpaceInstant from, const CarpacePlanRail *lies, CarpaceAirBreaks *ret_air)
{
  CarpaceOnAir air;
  int64_t at_ms = 0;

  ret_air->n = 0;
  carpace_on_air_init (&air);
  carpace_on_air_begin (&air, plan, from);
  while (lies->n > 0 && ret_air->n < CARPACE_AIR_BREAKS)
    {
      CarpaceIntermission next = carpace_on_air_at (&air, carpace_instant_after (from, at_ms));

      if (next.phase == CARPACE_INTERMISSION_NONE || next.begins_ms - from.elapsed_ms >= lies->block[lies->n - 1].to_ms)
        return;
      at_ms = next.ends_ms - from.elapsed_ms;
      ret_air->from_ms[ret_air->n] = next.begins_ms - from.elapsed_ms;
      ret_air->to_ms[ret_air->n++] = at_ms;
    }
}

static char *
air_words (const CarpacePlannerRail *rail, const CarpacePlan *plan, const CarpacePlanRail *lies)
{
  CarpaceAirBreaks air;

  have_air (plan, begins (rail), lies, &air);
  return carpace_text_rail_air (&air, begins (rail));
}

char *
carpace_planner_rail_air (const CarpacePlannerRail *rail)
{
  const CarpacePlan *plan = carpace_planner_plan (rail->planner);
  CarpacePlanRail lies;

  if (plan == NULL || plan->n_blocks == 0)
    return NULL;
  carpace_plan_rail (plan, 0, &lies);
  return air_words (rail, plan, &lies);
}

static CarpacePlanPaint
paint_of (CarpacePlannerRail *rail, cairo_t *cr)
{
  CarpacePlanPaint paint = { .cr = cr, .layout = rail->layout, .shades = carpace_shades_of (rail->area), .em = carpace_em_of (rail->area),
                             .width = gtk_widget_get_allocated_width (rail->area),
                             .mirrored = gtk_widget_get_direction (rail->area) == GTK_TEXT_DIR_RTL,
                             .plan = carpace_planner_plan (rail->planner), .load = carpace_planner_load (rail->planner),
                             .begins = begins (rail), .scale = is_held (rail) ? rail->scale : 0 };

  paint.chosen = (CarpaceHold) { .kind = CARPACE_HOLD_BLOCK, .block = rail->block, .part = rail->part };
  paint.accent = carpace_accent_of (rail->area);
  if (paint.plan != NULL)
    {
      carpace_plan_rail (paint.plan, is_held (rail) ? rail->rail.longest_ms : 0, &paint.rail);
      have_air (paint.plan, paint.begins, &paint.rail, &paint.air);
    }
  return paint;
}

static gboolean
draw (GtkWidget *area, cairo_t *cr, CarpacePlannerRail *rail)
{
  CarpacePlanPaint paint = paint_of (rail, cr);

  if (paint.plan != NULL)
    carpace_plan_paint (&paint);
  if (gtk_widget_has_visible_focus (area))
    gtk_render_focus (gtk_widget_get_style_context (area), cr, 0, 0, paint.width, gtk_widget_get_allocated_height (area));
  return FALSE;
}

static void
style_updated (GtkWidget *area, CarpacePlannerRail *rail)
{
  g_clear_object (&rail->layout);
  rail->layout = gtk_widget_create_pango_layout (area, NULL);
  gtk_widget_set_size_request (area, 320, (int) carpace_plan_paint_height (carpace_em_of (area)));
}

static void
say (CarpacePlannerRail *rail)
{
  const CarpacePlan *plan = carpace_planner_plan (rail->planner);
  g_autofree char *spoken = NULL, *air = NULL, *whole = NULL;
  CarpacePlanRail lies;

  if (plan == NULL || plan->n_blocks == 0)
    return;
  carpace_plan_rail (plan, 0, &lies);
  spoken = carpace_text_rail_spoken (plan, &lies, begins (rail), rail->block);
  air = air_words (rail, plan, &lies);
  whole = air != NULL ? g_strdup_printf ("%s. %s", spoken, air) : g_strdup (spoken);
  carpace_card_name (rail->area, whole, carpace_text_rail_keys ());
}

void
carpace_planner_rail_changed (CarpacePlannerRail *rail)
{
  const CarpacePlan *plan = carpace_planner_plan (rail->planner);
  int32_t n = plan != NULL ? plan->n_blocks : 0;

  if (is_held (rail) && !carpace_planner_is_trying (rail->planner)) /* undone, or typed, meanwhile */
    {
      rail->held.kind = CARPACE_HOLD_NOTHING;
      g_clear_pointer (&rail->base, g_free);
    }
  rail->block = CLAMP (rail->block, 0, MAX (n - 1, 0));
  if (n == 0 || rail->part >= plan->blocks[rail->block].n_parts)
    rail->part = -1;
  if (!is_held (rail))
    say (rail);
  gtk_widget_queue_draw (rail->area);
}

void
carpace_planner_rail_choose (CarpacePlannerRail *rail, int32_t block, int32_t part)
{
  if (rail->block == block && rail->part == part)
    return;
  rail->block = block;
  rail->part = part;
  carpace_planner_rail_changed (rail);
  rail->owner.chosen (rail->owner.self);
}

/* ---- the mouse ---- */

static int32_t
block_at (const CarpacePlanRail *rail, double along)
{
  for (int32_t i = 0; i < rail->n; i++)
    if (along < rail->block[i].to)
      return i;
  return rail->n - 1;
}

/* What is held, tried at @along, which is @by from where it was taken hold of. */
static void
try_at (CarpacePlannerRail *rail, CarpacePlan *plan, double along, double by)
{
  int32_t block = rail->held.block, to;
  const CarpacePlanSpan *span = &rail->rail.block[block];

  *plan = *rail->base;
  switch (rail->held.kind)
    {
    case CARPACE_HOLD_END:
      carpace_plan_try_limit (plan, block, plan->blocks[block].limit_ms + carpace_plan_rail_ms_in (&rail->rail, block, by));
      break;
    case CARPACE_HOLD_START:
      carpace_plan_try_wait (plan, plan->between_blocks_ms + carpace_plan_rail_ms_before (&rail->rail, block, by));
      break;
    case CARPACE_HOLD_SHARE:
      carpace_plan_try_share (plan, block, rail->held.part,
                              (int32_t) ((along - span->from) / (span->to - span->from) * CARPACE_WHOLE)
                                - carpace_plan_share_before (plan, block, rail->held.part));
      break;
    case CARPACE_HOLD_BLOCK:
      to = block_at (&rail->rail, along);
      carpace_plan_try_move_block (plan, block, to);
      rail->block = to;
      break;
    case CARPACE_HOLD_NOTHING: break;
    }
}

static gboolean
pressed (GtkWidget *area, GdkEventButton *event, CarpacePlannerRail *rail)
{
  CarpacePlanPaint paint = paint_of (rail, NULL);
  CarpaceHold hold;

  gtk_widget_grab_focus (area);
  if (event->button != GDK_BUTTON_PRIMARY || event->type != GDK_BUTTON_PRESS || paint.plan == NULL || is_held (rail))
    return TRUE;
  hold = carpace_plan_paint_at (&paint, event->x, event->y);
  if (hold.kind == CARPACE_HOLD_NOTHING)
    return TRUE;
  carpace_planner_rail_choose (rail, hold.block, hold.part);
  if (carpace_planner_try (rail->planner) == NULL)
    return TRUE;
  rail->scale = carpace_plan_paint_scale (&paint);
  rail->rail = paint.rail;
  rail->base = g_memdup2 (carpace_planner_plan (rail->planner), sizeof *rail->base);
  rail->from_x = event->x;
  rail->moved = false;
  rail->held = hold;
  return TRUE;
}

static void
show_cursor (CarpacePlannerRail *rail, CarpaceHoldKind kind)
{
  GdkCursor *cursor = kind == CARPACE_HOLD_NOTHING ? NULL : rail->cursors[kind == CARPACE_HOLD_BLOCK];

  if (gtk_widget_get_window (rail->area) != NULL)
    gdk_window_set_cursor (gtk_widget_get_window (rail->area), cursor);
}

static gboolean
moved (GtkWidget *area, GdkEventMotion *event, CarpacePlannerRail *rail)
{
  CarpacePlanPaint paint = paint_of (rail, NULL);
  CarpacePlan *plan;
  double along;

  if (!is_held (rail))
    {
      show_cursor (rail, paint.plan != NULL ? carpace_plan_paint_at (&paint, event->x, event->y).kind : CARPACE_HOLD_NOTHING);
      return TRUE;
    }
  rail->moved = rail->moved || fabs (event->x - rail->from_x) >= MOVED_PX;
  plan = carpace_planner_try (rail->planner);
  if (!rail->moved || plan == NULL || plan->split_into > 0)
    return TRUE;
  paint.rail = rail->rail;
  along = carpace_plan_paint_along (&paint, event->x);
  try_at (rail, plan, along, along - carpace_plan_paint_along (&paint, rail->from_x));
  carpace_planner_tried (rail->planner);
  return TRUE;
}

static void
let_go (CarpacePlannerRail *rail, bool keep)
{
  bool split = rail->moved && rail->base->split_into > 0 && rail->held.kind != CARPACE_HOLD_START;
  CarpacePlanEditEnd end = CARPACE_EDIT_DONE;

  if (!keep)
    rail->block = rail->held.block;
  rail->held.kind = CARPACE_HOLD_NOTHING;
  g_clear_pointer (&rail->base, g_free);
  if (keep && rail->moved && !split)
    end = carpace_planner_take (rail->planner);
  else
    carpace_planner_let_go (rail->planner);
  carpace_planner_rail_changed (rail);
  rail->owner.chosen (rail->owner.self);
  rail->owner.done (rail->owner.self, split ? CARPACE_EDIT_NOT_THERE : end);
}

static gboolean
released (GtkWidget *area, GdkEventButton *event, CarpacePlannerRail *rail)
{
  if (event->button == GDK_BUTTON_PRIMARY && is_held (rail))
    let_go (rail, true);
  return TRUE;
}

/* ---- keys ---- */

static void
take (CarpacePlannerRail *rail)
{
  CarpacePlanEditEnd end = carpace_planner_take (rail->planner);

  rail->owner.chosen (rail->owner.self);
  rail->owner.done (rail->owner.self, end);
}

/* By keys a step at a time, each of them one to be undone. */
static void
step (CarpacePlannerRail *rail, CarpaceHoldKind kind, int by)
{
  CarpacePlan *plan = carpace_planner_try (rail->planner);
  int32_t to = rail->block + by;

  if (plan == NULL)
    return;
  if (plan->split_into > 0 && kind != CARPACE_HOLD_START)
    {
      carpace_planner_let_go (rail->planner);
      rail->owner.done (rail->owner.self, CARPACE_EDIT_NOT_THERE);
      return;
    }
  switch (kind)
    {
    case CARPACE_HOLD_END: carpace_plan_try_limit (plan, rail->block, plan->blocks[rail->block].limit_ms + by * CARPACE_LIMIT_STEP_MS); break;
    case CARPACE_HOLD_START: carpace_plan_try_wait (plan, plan->between_blocks_ms + by * CARPACE_WAIT_STEP_MS); break;
    case CARPACE_HOLD_BLOCK:
      if (to < 0 || to >= plan->n_blocks)
        break;
      carpace_plan_try_move_block (plan, rail->block, to);
      rail->block = to;
      break;
    case CARPACE_HOLD_SHARE:
      {
        int32_t part = CLAMP (rail->part, 0, plan->blocks[rail->block].n_parts - 2);

        if (plan->blocks[rail->block].n_parts > 1)
          carpace_plan_try_share (plan, rail->block, part, plan->blocks[rail->block].parts[part].share
                                    + (rail->part > part ? -by : by) * CARPACE_SHARE_STEP);
        break;
      }
    case CARPACE_HOLD_NOTHING: break;
    }
  take (rail);
}

static void
choose_beside (CarpacePlannerRail *rail, int blocks, int parts)
{
  const CarpacePlan *plan = carpace_planner_plan (rail->planner);
  int32_t block, part = -1;

  if (plan == NULL || plan->n_blocks == 0)
    return;
  block = CLAMP (rail->block + blocks, 0, plan->n_blocks - 1);
  if (parts != 0)
    part = CLAMP (rail->part + parts, 0, plan->blocks[block].n_parts - 1);
  carpace_planner_rail_choose (rail, block, part);
}

static gboolean
key (GtkWidget *area, GdkEventKey *event, CarpacePlannerRail *rail)
{
  GdkModifierType with = event->state & gtk_accelerator_get_default_mod_mask ();
  bool mirrored = gtk_widget_get_direction (area) == GTK_TEXT_DIR_RTL;
  int by = event->keyval == GDK_KEY_Left || event->keyval == GDK_KEY_Down ? -1 : 1;

  switch (event->keyval)
    {
    case GDK_KEY_Escape:
      if (!is_held (rail))
        return FALSE;
      let_go (rail, false);
      return TRUE;
    case GDK_KEY_Left:
    case GDK_KEY_Right:
      by = mirrored ? -by : by;
      if (with == 0)
        choose_beside (rail, by, 0);
      else if (with == GDK_SHIFT_MASK)
        step (rail, CARPACE_HOLD_END, by);
      else if (with == GDK_CONTROL_MASK)
        step (rail, CARPACE_HOLD_START, by);
      else if (with == GDK_MOD1_MASK)
        step (rail, CARPACE_HOLD_BLOCK, by);
      else
        return FALSE;
      return TRUE;
    case GDK_KEY_Up:
    case GDK_KEY_Down:
      if (with == 0)
        choose_beside (rail, 0, -by);
      else if (with == GDK_SHIFT_MASK)
        step (rail, CARPACE_HOLD_SHARE, by);
      else
        return FALSE;
      return TRUE;
    case GDK_KEY_Home: choose_beside (rail, -CARPACE_PLAN_BLOCKS, 0); return TRUE;
    case GDK_KEY_End: choose_beside (rail, CARPACE_PLAN_BLOCKS, 0); return TRUE;
    default: return FALSE;
    }
}

/* ---- the widget ---- */

static void
realized (GtkWidget *area, CarpacePlannerRail *rail)
{
  GdkDisplay *display = gtk_widget_get_display (area);

  rail->cursors[0] = gdk_cursor_new_from_name (display, "ew-resize");
  rail->cursors[1] = gdk_cursor_new_from_name (display, "grab");
}

CarpacePlannerRail *
carpace_planner_rail_new (CarpacePlanner *planner, const CarpacePlannerRailOwner *owner)
{
  CarpacePlannerRail *rail = g_new0 (CarpacePlannerRail, 1);

  rail->planner = planner;
  rail->owner = *owner;
  rail->begins_min = CARPACE_PLANNER_BEGINS_MIN;
  rail->part = -1;
  rail->area = g_object_ref_sink (gtk_drawing_area_new ());
  gtk_widget_set_can_focus (rail->area, TRUE);
  gtk_widget_set_hexpand (rail->area, TRUE);
  gtk_widget_add_events (rail->area, GDK_BUTTON_PRESS_MASK | GDK_BUTTON_RELEASE_MASK | GDK_POINTER_MOTION_MASK | GDK_KEY_PRESS_MASK);
  g_signal_connect (rail->area, "draw", G_CALLBACK (draw), rail);
  g_signal_connect (rail->area, "style-updated", G_CALLBACK (style_updated), rail);
  g_signal_connect (rail->area, "realize", G_CALLBACK (realized), rail);
  g_signal_connect (rail->area, "button-press-event", G_CALLBACK (pressed), rail);
  g_signal_connect (rail->area, "button-release-event", G_CALLBACK (released), rail);
  g_signal_connect (rail->area, "motion-notify-event", G_CALLBACK (moved), rail);
  g_signal_connect (rail->area, "key-press-event", G_CALLBACK (key), rail);
  style_updated (rail->area, rail);
  carpace_planner_rail_changed (rail);
  gtk_widget_show (rail->area);
  return rail;
}

void
carpace_planner_rail_free (CarpacePlannerRail *rail)
{
  g_signal_handlers_disconnect_by_data (rail->area, rail);
  g_clear_object (&rail->area);
  g_clear_object (&rail->layout);
  g_clear_object (&rail->cursors[0]);
  g_clear_object (&rail->cursors[1]);
  g_free (rail->base);
  g_free (rail);
}

GtkWidget *
carpace_planner_rail_widget (CarpacePlannerRail *rail)
{
  return rail->area;
}

void
carpace_planner_rail_begin_at (CarpacePlannerRail *rail, int32_t minutes)
{
  rail->begins_min = minutes;
  carpace_planner_rail_changed (rail);
}

int32_t
carpace_planner_rail_block (const CarpacePlannerRail *rail)
{
  return rail->block;
}

int32_t
carpace_planner_rail_part (const CarpacePlannerRail *rail)
{
  return rail->part;
}
