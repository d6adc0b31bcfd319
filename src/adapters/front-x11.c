/* SPDX-License-Identifier: GPL-3.0-or-later */
/* front-x11.c: the window in front, and one that is chosen by a click. The server is
 * connected to in a thread: one beside a compositor may only start then. */
#include "front-x11.h"

#include "front-x11-window.h"
#include "x11.h"

#include <gio/gio.h>
#include <stdlib.h>

#define AGAIN_MS 1000
#define AGAIN_AT_MOST_MS 300000
/* A menu that closes holds the pointer for a moment. */
#define GRAB_AGAIN_MS 50
#define GRABS 40
#define CROSSHAIR 34 /* of the font of cursors */
#define ESCAPE 0xff1b

typedef struct
{
  CarpaceWindowListener listener;
  GMainContext *context;
  GCancellable *connecting;
  xcb_connection_t *x;
  CarpaceX11Atoms atoms;
  GSource *events, *timer;
  int again_ms;
  int grabs;   /* still to be tried; 0: no window is being chosen */
  bool choosing;
} Front;

static void connect_again (Front *front);

static void
timer_start (Front *front, int in_ms, GSourceFunc due)
{
  if (front->timer != NULL)
    g_source_destroy (front->timer);
  g_clear_pointer (&front->timer, g_source_unref);
  if (due == NULL)
    return;
  front->timer = g_timeout_source_new ((guint) in_ms);
  g_source_set_static_name (front->timer, "carpace front window");
  g_source_set_callback (front->timer, due, front, NULL);
  g_source_attach (front->timer, front->context);
}

/* ---- which one is in front ---- */

static void
tell_window (const Front *front, xcb_window_t window, void (*tell) (void *user, const CarpaceWindow *window))
{
  CarpaceX11Window of;
  CarpaceWindow told = { NULL, NULL };

  if (window != XCB_WINDOW_NONE && carpace_x11_window_read (front->x, &front->atoms, window, &of))
    told = (CarpaceWindow) { of.name, of.program[0] != '\0' ? of.program : NULL };
  tell (front->listener.user, told.name != NULL ? &told : NULL);
}

static void
tell_front (Front *front)
{
  tell_window (front, carpace_x11_window_in_front (front->x, &front->atoms), front->listener.front);
}

/* ---- one that is chosen ---- */

static void
choose_no_more (Front *front)
{
  front->choosing = false;
  front->grabs = 0;
  timer_start (front, 0, NULL);
  xcb_ungrab_pointer (front->x, XCB_CURRENT_TIME);
  xcb_ungrab_keyboard (front->x, XCB_CURRENT_TIME);
  xcb_flush (front->x);
}

static void
chosen (Front *front, xcb_window_t window)
{
  choose_no_more (front);
  tell_window (front, window, front->listener.picked);
}

static gboolean
waited_too_long (gpointer user)
{
  Front *front = user;

  chosen (front, XCB_WINDOW_NONE);
  return G_SOURCE_REMOVE;
}

static bool
grab (Front *front)
{
  xcb_font_t font = xcb_generate_id (front->x);
  xcb_cursor_t cursor = xcb_generate_id (front->x);
  xcb_grab_pointer_reply_t *pointer;
  xcb_grab_keyboard_reply_t *keyboard;
  bool grabbed;

  xcb_open_font (front->x, font, 6, "cursor");
  xcb_create_glyph_cursor (front->x, cursor, font, font, CROSSHAIR, CROSSHAIR + 1, 0, 0, 0, 0xffff, 0xffff, 0xffff);
  pointer = xcb_grab_pointer_reply (front->x, xcb_grab_pointer (front->x, 0, front->atoms.root, XCB_EVENT_MASK_BUTTON_PRESS,
    XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC, XCB_WINDOW_NONE, cursor, XCB_CURRENT_TIME), NULL);
  keyboard = xcb_grab_keyboard_reply (front->x, xcb_grab_keyboard (front->x, 0, front->atoms.root, XCB_CURRENT_TIME,
    XCB_GRAB_MODE_ASYNC, XCB_GRAB_MODE_ASYNC), NULL);
  grabbed = pointer != NULL && pointer->status == XCB_GRAB_STATUS_SUCCESS
            && keyboard != NULL && keyboard->status == XCB_GRAB_STATUS_SUCCESS;
  if (!grabbed) /* half of it would hold the pointer until the next try */
    {
      xcb_ungrab_pointer (front->x, XCB_CURRENT_TIME);
      xcb_ungrab_keyboard (front->x, XCB_CURRENT_TIME);
      xcb_flush (front->x);
    }
  free (pointer);
  free (keyboard);
  xcb_free_cursor (front->x, cursor);
  xcb_close_font (front->x, font);
  return grabbed;
}

static gboolean
try_to_grab (gpointer user)
{
  Front *front = user;

  if (grab (front))
    {
      front->choosing = true;
      timer_start (front, CARPACE_FRONT_PICK_MS, waited_too_long);
    }
  else if (--front->grabs > 0)
    timer_start (front, GRAB_AGAIN_MS, try_to_grab);
  else
    chosen (front, XCB_WINDOW_NONE);
  return G_SOURCE_REMOVE;
}

static void
pick (void *self)
{
  Front *front = self;

  front->grabs = GRABS;
  if (front->x != NULL) /* else it begins as soon as the server is there */
    timer_start (front, 0, try_to_grab);
}

/* ---- events ---- */

static void
take_event (void *self, const xcb_generic_event_t *event)
{
  Front *front = self;
  const xcb_property_notify_event_t *property = (const xcb_property_notify_event_t *) event;
  const xcb_button_press_event_t *button = (const xcb_button_press_event_t *) event;

  switch (event->response_type & 0x7f)
    {
    case XCB_PROPERTY_NOTIFY:
      if (property->window == front->atoms.root && property->atom == front->atoms.active)
        tell_front (front);
      break;
    case XCB_BUTTON_PRESS:
      if (front->choosing)
        chosen (front, button->detail == XCB_BUTTON_INDEX_1 ? carpace_x11_window_of (front->x, &front->atoms, button->child)
                                                            : XCB_WINDOW_NONE);
      break;
    case XCB_KEY_PRESS:
      if (front->choosing && carpace_x11_keysym (front->x, button->detail) == ESCAPE)
        chosen (front, XCB_WINDOW_NONE);
      break;
    default:
      break;
    }
}

/* ---- a server that comes and goes ---- */

static gboolean
connect_now (gpointer user)
{
  connect_again (user);
  return G_SOURCE_REMOVE;
}

static void
leave (Front *front)
{
  GSource *events = g_steal_pointer (&front->events);

  if (events != NULL)
    {
      g_source_destroy (events);
      g_source_unref (events);
    }
  g_clear_pointer (&front->x, xcb_disconnect);
}

/* The source of its events ends with it: looked for again, ever less often. */
static void
gone (Front *front)
{
  bool chose = front->grabs > 0;

  leave (front);
  front->choosing = false;
  front->grabs = 0;
  timer_start (front, front->again_ms, connect_now);
  front->again_ms = MIN (2 * front->again_ms, AGAIN_AT_MOST_MS);
  front->listener.front (front->listener.user, NULL);
  if (chose)
    front->listener.picked (front->listener.user, NULL);
}

static gboolean
gone_soon (gpointer user)
{
  gone (user);
  return G_SOURCE_REMOVE;
}

static void
events_ended (gpointer user)
{
  Front *front = user;

  if (front->events != NULL)
    timer_start (front, 0, gone_soon);
}

static void
connect_in_thread (GTask *task, gpointer source, gpointer data, GCancellable *cancel)
{
  g_task_return_pointer (task, xcb_connect (NULL, NULL), (GDestroyNotify) xcb_disconnect);
}

static void
connected (GObject *source, GAsyncResult *result, gpointer user)
{
  Front *front = user;
  xcb_connection_t *x = g_task_propagate_pointer (G_TASK (result), NULL);

  if (x == NULL)
    return; /* it was cancelled, and may be gone */
  g_clear_object (&front->connecting);
  front->x = x;
  if (xcb_connection_has_error (x) != 0 || !carpace_x11_atoms_read (x, &front->atoms))
    {
      gone (front);
      return;
    }
  front->again_ms = AGAIN_MS;
  front->events = carpace_x11_events_new (x, front->context, "carpace front window", take_event, front);
  g_source_set_callback (front->events, NULL, front, events_ended);
  tell_front (front);
  if (front->grabs > 0)
    timer_start (front, 0, try_to_grab);
}

static void
connect_again (Front *front)
{
  GTask *task;

  front->connecting = g_cancellable_new ();
  task = g_task_new (NULL, front->connecting, connected, front);
  g_task_run_in_thread (task, connect_in_thread);
  g_object_unref (task);
}

/* ---- the port ---- */

static void
let_go (void *self)
{
  Front *front = self;

  if (front->connecting != NULL)
    g_cancellable_cancel (front->connecting);
  g_clear_object (&front->connecting);
  timer_start (front, 0, NULL);
  leave (front);
  g_main_context_unref (front->context);
  g_free (front);
}

static bool
open_where (bool offered, bool by_click, CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  const char *display = g_getenv ("DISPLAY");
  Front *front;

  if (!offered || display == NULL || display[0] == '\0')
    return false;
  front = g_new0 (Front, 1);
  front->listener = listener;
  front->context = g_main_context_ref_thread_default ();
  front->again_ms = AGAIN_MS;
  connect_again (front);
  *ret_front = (CarpaceFront) { .self = front, .pick = by_click ? pick : NULL, .free = let_go };
  return true;
}

bool
carpace_front_x11_open (CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  return open_where (carpace_x11_is_session (), true, listener, ret_front);
}

bool
carpace_front_x11_beside_open (CarpaceWindowListener listener, CarpaceFront *ret_front)
{
  return open_where (!carpace_x11_is_session (), false, listener, ret_front);
}
