/* SPDX-License-Identifier: GPL-3.0-or-later */
/* Against a server of the test's own in another process (this program with
 * `--server`), that is stopped, killed and started again; and with none at all.
 * The bus is the test's own. */
#define _GNU_SOURCE
#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <stdint.h>

#include <cmocka.h>

#include <gio/gio.h>
#include <libnotify/notify.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include "cue-libnotify.h"

#define SERVER "org.freedesktop.Notifications"
#define SERVER_PATH "/org/freedesktop/Notifications"
#define BENCH "org.carpace.Bench"
#define LIMIT_MS 8000
/* A stalled loop would stand still for 2 s and more; a busy machine may hold
 * any loop up for a while. */
#define LONGEST_STALL_MS 150

/* ---- the server ---- */

static const char server_xml[]
  = "<node><interface name='" SERVER "'>"
    "<method name='GetCapabilities'><arg type='as' direction='out'/></method>"
    "<method name='GetServerInformation'><arg type='s' direction='out'/><arg type='s' direction='out'/>"
    "<arg type='s' direction='out'/><arg type='s' direction='out'/></method>"
    "<method name='Notify'><arg type='s' direction='in'/><arg type='u' direction='in'/><arg type='s' direction='in'/>"
    "<arg type='s' direction='in'/><arg type='s' direction='in'/><arg type='as' direction='in'/>"
    "<arg type='a{sv}' direction='in'/><arg type='i' direction='in'/><arg type='u' direction='out'/></method>"
    "<method name='CloseNotification'><arg type='u' direction='in'/></method>"
    "<signal name='ActionInvoked'><arg type='u'/><arg type='s'/></signal>"
    "<signal name='NotificationClosed'><arg type='u'/><arg type='u'/></signal></interface>"
    "<interface name='" BENCH "'>"
    "<method name='Last'><arg type='i' direction='out'/><arg type='i' direction='out'/><arg type='u' direction='out'/>"
    "<arg type='s' direction='out'/><arg type='s' direction='out'/><arg type='as' direction='out'/>"
    "<arg type='i' direction='out'/></method><method name='Act'><arg type='u' direction='in'/><arg type='s' direction='in'/></method></interface></node>";

static struct
{
  const char *const *capabilities;
  bool refuses, freezes, holds;
  GDBusMethodInvocation *held; /* a notice that is not answered yet */
  int notified, closed;
  guint32 last_id;
  char *title, *body;
  char **actions;
  gint32 stays_ms;
  GVariant *name; /* what it says of itself */
} server;

static void
notify_called (GVariant *in, GDBusMethodInvocation *call)
{
  guint32 replaces = 0;
  if (server.refuses)
    {
      g_dbus_method_invocation_return_dbus_error (call, "org.freedesktop.DBus.Error.LimitsExceeded", "full");
      return;
    }
  if (server.freezes)
    {
      server.freezes = false;
      raise (SIGSTOP); /* before it answers, or has seen what is to be shown */
    }
  g_free (server.title);
  g_free (server.body);
  g_strfreev (server.actions);
  g_variant_get (in, "(su&sss^asa{sv}i)", NULL, &replaces, NULL, &server.title, &server.body, &server.actions, NULL,
                 &server.stays_ms);
  server.notified++;
  server.last_id = replaces != 0 ? replaces : server.last_id + 1;
  if (server.holds)
    server.held = call;
  else
    g_dbus_method_invocation_return_value (call, g_variant_new ("(u)", server.last_id));
}

static void
server_called (GDBusConnection *bus, const char *sender, const char *path, const char *interface, const char *method,
               GVariant *in, GDBusMethodInvocation *call, gpointer data)
{
  GVariant *out = NULL;
  if (g_str_equal (method, "Notify"))
    {
      notify_called (in, call);
      return;
    }
  if (g_str_equal (method, "GetCapabilities"))
    out = g_variant_new ("(^as)", server.capabilities);
  else if (g_str_equal (method, "GetServerInformation"))
    out = server.name;
  else if (g_str_equal (method, "CloseNotification"))
    {
      server.closed++;
      g_dbus_connection_emit_signal (bus, NULL, SERVER_PATH, SERVER, "NotificationClosed",
                                     g_variant_new ("(uu)", server.last_id, 3), NULL);
    }
  else if (g_str_equal (method, "Last"))
    out = g_variant_new ("(iiuss^asi)", server.notified, server.closed, server.last_id, server.title, server.body,
                         server.actions, server.stays_ms);
  else if (server.held != NULL)
    g_dbus_method_invocation_return_value (g_steal_pointer (&server.held), g_variant_new ("(u)", server.last_id));
  else
    g_dbus_connection_emit_signal (bus, NULL, SERVER_PATH, SERVER, "ActionInvoked", in, NULL);
  g_dbus_method_invocation_return_value (call, out);
}

static const GDBusInterfaceVTable server_calls = { .method_call = server_called };

static void
server_has_bus (GDBusConnection *bus, const char *name, gpointer data)
{
  GDBusNodeInfo *node = g_dbus_node_info_new_for_xml (server_xml, NULL);
  for (int i = 0; i < 2; i++)
    g_dbus_connection_register_object (bus, SERVER_PATH, node->interfaces[i], &server_calls, NULL, NULL, NULL);
}

static int
serve (const char *kind)
{
  static const char *const plain[] = { "body", "actions", NULL };
  static const char *const markup[] = { "body", "body-markup", "actions", NULL };
  static const char *const meagre[] = { "body", NULL };
  prctl (PR_SET_PDEATHSIG, SIGKILL);
  server.capabilities = g_str_equal (kind, "markup") ? markup : g_str_equal (kind, "meagre") ? meagre : plain;
  server.refuses = g_str_equal (kind, "refuses");
  server.holds = g_str_equal (kind, "holds");
  server.freezes = g_str_equal (kind, "freezes");
  server.name = g_variant_ref_sink (g_variant_new ("(ssss)", g_str_has_prefix (kind, "leaves") ? "Notification Daemon" : "bench",
                                                   g_str_equal (kind, "leaves") ? "GNOME" : "MATE", "1", "1.2"));
  server.title = g_strdup ("");
  server.body = g_strdup ("");
  server.actions = g_new0 (char *, 1);
  g_bus_own_name (G_BUS_TYPE_SESSION, SERVER, G_BUS_NAME_OWNER_FLAGS_NONE, server_has_bus, NULL, NULL, NULL, NULL);
  g_main_loop_run (g_main_loop_new (NULL, FALSE));
  return 0;
}

/* ---- the bench ---- */

typedef struct
{
  CarpaceCueLibnotify *cues;
  GDBusConnection *bus;
  pid_t server;
  int n_answers, n_opened, n_troubles, n_over;
  int n_answerable;
  bool answerable;
  CarpaceEventKind answer;
  CarpaceCue cue;
  CarpaceCueTrouble trouble;
  GThread *called_in;
  guint beat;
  gint64 last_beat, longest_us;
} Bench;

static char *self_path;

static int64_t
now_ms (void)
{
  return g_get_monotonic_time () / 1000;
}

static gboolean
beat (gpointer data)
{
  Bench *bench = data;
  gint64 now = g_get_monotonic_time ();
  bench->longest_us = MAX (bench->longest_us, now - bench->last_beat);
  bench->last_beat = now;
  return G_SOURCE_CONTINUE;
}

static bool
owned (Bench *bench)
{
  GVariant *reply = g_dbus_connection_call_sync (bench->bus, "org.freedesktop.DBus", "/org/freedesktop/DBus",
                                                 "org.freedesktop.DBus", "NameHasOwner", g_variant_new ("(s)", SERVER),
                                                 G_VARIANT_TYPE ("(b)"), 0, -1, NULL, NULL);
  gboolean has = FALSE;
  g_variant_get (reply, "(b)", &has);
  g_variant_unref (reply);
  return has;
}

static void
start_server (Bench *bench, const char *kind)
{
  bench->server = fork ();
  if (bench->server == 0)
    {
      execl (self_path, self_path, "--server", kind, (char *) NULL);
      _exit (127);
    }
  for (int64_t end = now_ms () + LIMIT_MS; !owned (bench) && now_ms () < end;)
    g_usleep (1000);
  assert_true (owned (bench));
}

static void
kill_server (Bench *bench)
{
  if (bench->server <= 0)
    return;
  kill (bench->server, SIGKILL);
  waitpid (bench->server, NULL, 0);
  bench->server = 0;
  for (int64_t end = now_ms () + LIMIT_MS; owned (bench) && now_ms () < end;)
    g_usleep (1000);
}

/* Runs the loop until *@number is @enough, or @ms have gone by. */
static void
wait_for (Bench *bench, const int *number, int enough, int64_t ms)
{
  bench->last_beat = g_get_monotonic_time ();
  for (int64_t end = now_ms () + ms; now_ms () < end && (number == NULL || *number < enough);)
    g_main_context_iteration (NULL, TRUE);
}

typedef struct
{
  int notified, closed;
  guint32 id;
  char *title, *body;
  char **actions;
  gint32 stays_ms;
} Last;

static void
ask_last (Bench *bench, Last *ret_last)
{
  GError *error = NULL;
  GVariant *reply = g_dbus_connection_call_sync (bench->bus, SERVER, SERVER_PATH, BENCH, "Last", NULL, NULL, 0, -1,
                                                 NULL, &error);
  if (reply == NULL)
    fail_msg ("%s", error->message);
  g_variant_get (reply, "(iiuss^asi)", &ret_last->notified, &ret_last->closed, &ret_last->id, &ret_last->title,
                 &ret_last->body, &ret_last->actions, &ret_last->stays_ms);
  g_variant_unref (reply);
}

static void
clear_last (Last *last)
{
  g_free (last->title);
  g_free (last->body);
  g_strfreev (last->actions);
  memset (last, 0, sizeof *last);
}

/* Waits until the server has had @notified notices and @closed closings. */
static Last
wait_server (Bench *bench, int notified, int closed)
{
  Last last = { 0 };
  for (int64_t end = now_ms () + LIMIT_MS; now_ms () < end;)
    {
      clear_last (&last);
      ask_last (bench, &last);
      if (last.notified >= notified && last.closed >= closed)
        break;
      wait_for (bench, NULL, 0, 5);
    }
  assert_int_equal (last.notified, notified);
  assert_int_equal (last.closed, closed);
  return last;
}

static void
on_answer (void *self, CarpaceCue cue, CarpaceEventKind answer)
{
  Bench *bench = self;
  bench->n_answers++;
  bench->cue = cue;
  bench->answer = answer;
  bench->called_in = g_thread_self ();
}

static void
on_opened (void *self, CarpaceCue cue)
{
  Bench *bench = self;
  bench->n_opened++;
  bench->cue = cue;
}

static void
on_trouble (void *self, CarpaceCueTrouble trouble)
{
  Bench *bench = self;
  bench->n_troubles++;
  bench->trouble = trouble;
  bench->called_in = g_thread_self ();
}

static void
on_over (void *self)
{
  Bench *bench = self;
  bench->n_over++;
}

static void
on_answerable (void *self, bool answerable)
{
  Bench *bench = self;
  bench->n_answerable++;
  bench->answerable = answerable;
  bench->called_in = g_thread_self ();
}

static int
set_up (void **state)
{
  static const CarpaceCueLook look = {
    .app_name = "Carpace", .app_id = "org.carpace.Carpace", .icon = "org.carpace.Carpace", .open_label = "Open"
  };
  Bench *bench = g_new0 (Bench, 1);
  bench->bus = g_dbus_connection_new_for_address_sync (
    g_getenv ("DBUS_SESSION_BUS_ADDRESS"),
    G_DBUS_CONNECTION_FLAGS_AUTHENTICATION_CLIENT | G_DBUS_CONNECTION_FLAGS_MESSAGE_BUS_CONNECTION, NULL, NULL, NULL);
  assert_non_null (bench->bus);
  bench->cues = carpace_cue_libnotify_new (
    &look, NULL, (CarpaceCueListener) { .self = bench, .answered = on_answer, .opened = on_opened, .trouble = on_trouble,
                                       .over = on_over, .answerable = on_answerable });
  bench->beat = g_timeout_add (2, beat, bench);
  *state = bench;
  return 0;
}

static int
tear_down (void **state)
{
  Bench *bench = *state;
  if (bench->server > 0)
    kill (bench->server, SIGCONT);
  carpace_cue_libnotify_free (bench->cues);
  /* The library's state is the process's: a thread that is still at its goodbye would take it from the next test's. */
  for (int64_t end = now_ms () + LIMIT_MS; notify_is_initted () && now_ms () < end;)
    g_usleep (1000);
  assert_false (notify_is_initted ());
  kill_server (bench);
  g_source_remove (bench->beat);
  g_object_unref (bench->bus);
  g_free (bench);
  return 0;
}

static void
show (Bench *bench, CarpaceCue cue, const char *title, const char *body)
{
  CarpaceNotice notice = {
    .cue = cue, .title = (char *) title, .body = (char *) body, .n_actions = 3,
    .action = { { CARPACE_EVENT_REST, (char *) "Rest now" }, { CARPACE_EVENT_AFTER_RUN, (char *) "After this run" },
                { CARPACE_EVENT_PLAY_ON, (char *) "Play on" } },
  };
  carpace_cue_libnotify_show (bench->cues, &notice);
}

static void
assert_no_stall (Bench *bench, const char *when)
{
  print_message ("%s: longest stall of the loop %.1f ms\n", when, (double) bench->longest_us / 1000);
  assert_true (bench->longest_us < LONGEST_STALL_MS * 1000);
}

static void
act (Bench *bench, guint32 id, const char *action)
{
  GVariant *reply = g_dbus_connection_call_sync (bench->bus, SERVER, SERVER_PATH, BENCH, "Act",
                                                 g_variant_new ("(us)", id, action), NULL, 0, -1, NULL, NULL);
  g_variant_unref (reply);
}

static void
shown_answered_and_closed (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  Last last = wait_server (bench, 1, 0);
  assert_string_equal (last.title, "Stretch");
  assert_string_equal (last.body, "30 s");
  static const char *const actions[] = { "rest", "Rest now", "after-run", "After this run", "play-on", "Play on",
                                         "default", "Open", NULL };
  assert_true (g_strv_equal ((const char *const *) last.actions, actions));
  assert_int_equal (last.stays_ms, 0); /* until it is withdrawn: Desktop Notifications Specification, 1.2 */
  guint32 first = last.id;

  act (bench, first, "play-on");
  wait_for (bench, &bench->n_answers, 1, LIMIT_MS);
  assert_int_equal (bench->n_answers, 1);
  assert_int_equal (bench->answer, CARPACE_EVENT_PLAY_ON);
  assert_int_equal (bench->cue, CARPACE_CUE_MICRO_REST);
  assert_ptr_equal (bench->called_in, g_thread_self ());
  act (bench, first, "default");
  wait_for (bench, &bench->n_opened, 1, LIMIT_MS);
  assert_int_equal (bench->n_opened, 1);

  show (bench, CARPACE_CUE_MICRO_REST, "Movement", "40 s");
  clear_last (&last);
  last = wait_server (bench, 2, 0);
  assert_int_equal (last.id, first); /* in its place */
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
  clear_last (&last);
  last = wait_server (bench, 2, 1);
  clear_last (&last);
  carpace_cue_libnotify_show (bench->cues, &(CarpaceNotice){ .cue = CARPACE_CUE_NEXT_BLOCK, .title = (char *) "Nothing",
                                                             .body = (char *) "", .passes = true });
  last = wait_server (bench, 3, 1);
  assert_int_equal (last.stays_ms, -1); /* as long as the server likes */
  clear_last (&last);
  assert_int_equal (bench->n_troubles, 0);
  assert_no_stall (bench, "server answers");
}

static void
text_is_shown_as_text (void **state)
{
  static const struct { const char *name, *kind, *title, *body, *shown_title, *shown_body; } rows[] = {
    { "markup taken", "markup", "<b>T</b> & co", "<a href='x'>B</a> & \"q\"", "<b>T</b> & co",
      "&lt;a href=&apos;x&apos;&gt;B&lt;/a&gt; &amp; &quot;q&quot;" },
    { "markup not announced", "plain", "<b>T</b>", "<i>B</i> &amp; &", "<b>T</b>",
      "\xe2\x80\xb9i\xe2\x80\xba" "B\xe2\x80\xb9/i\xe2\x80\xba &\xe2\x81\xa0" "amp; &" },
    { "control characters", "plain", "a\033[1mb\nc", "l1\nl2\t\a", "a [1mb\nc", "l1\nl2  " },
    { "bad UTF-8", "plain", "a\xff", "\xc3(", "a\xef\xbf\xbd", "\xef\xbf\xbd(" },
  };
  Bench *bench = *state;
  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      start_server (bench, rows[i].kind);
      show (bench, CARPACE_CUE_LIMIT, rows[i].title, rows[i].body);
      Last last = wait_server (bench, 1, 0);
      if (g_strcmp0 (last.title, rows[i].shown_title) != 0 || g_strcmp0 (last.body, rows[i].shown_body) != 0)
        fail_msg ("%s: '%s' '%s'", rows[i].name, last.title, last.body);
      clear_last (&last);
      carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_LIMIT);
      last = wait_server (bench, 1, 1);
      clear_last (&last);
      kill_server (bench);
    }
}

static void
endless_text_has_an_end (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  char *text = g_strnfill (1000000, 'x');
  show (bench, CARPACE_CUE_LIMIT, text, text);
  Last last = wait_server (bench, 1, 0);
  assert_int_equal (strlen (last.title), 400);
  assert_int_equal (strlen (last.body), 400);
  clear_last (&last);
  g_free (text);
}

/* notification-daemon 3.20 takes off the screen what expires, and not what it is asked to close. One of the same name does both. */
static void
a_server_that_leaves_what_it_closes_is_let_expire_it (void **state)
{
  Bench *bench = *state;
  static const struct { const char *kind; int more; } rows[] = { { "leaves", 1 }, { "leaves not", 0 }, { "plain", 0 } };

  for (size_t i = 0; i < G_N_ELEMENTS (rows); i++)
    {
      start_server (bench, rows[i].kind);
      show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
      Last last = wait_server (bench, 1, 0);
      guint32 first = last.id;
      assert_int_equal (last.stays_ms, 0);
      clear_last (&last);
      carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
      last = wait_server (bench, 1 + rows[i].more, 1);
      assert_int_equal (last.id, first); /* in its place */
      assert_int_equal (last.stays_ms, rows[i].more);
      assert_string_equal (last.title, "Stretch");
      clear_last (&last);
      show (bench, CARPACE_CUE_MICRO_REST, "Movement", "40 s");
      last = wait_server (bench, 2 + rows[i].more, 1);
      assert_int_equal (last.stays_ms, 0); /* a new one stays */
      clear_last (&last);
      carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
      last = wait_server (bench, 2 + 2 * rows[i].more, 2);
      clear_last (&last);
      kill_server (bench);
    }
  assert_int_equal (bench->n_troubles, 0);
}

static void
a_server_without_actions_is_given_none (void **state)
{
  Bench *bench = *state;
  start_server (bench, "meagre");
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  Last last = wait_server (bench, 1, 0);
  assert_int_equal (g_strv_length (last.actions), 0);
  clear_last (&last);
  wait_for (bench, &bench->n_answerable, 1, LIMIT_MS);
  assert_int_equal (bench->n_answerable, 1);
  assert_false (bench->answerable);
  assert_ptr_equal (bench->called_in, g_thread_self ());
  show (bench, CARPACE_CUE_LIMIT, "Limit", "");
  last = wait_server (bench, 2, 0);
  clear_last (&last);
  wait_for (bench, &bench->n_answerable, 2, 300);
  assert_int_equal (bench->n_answerable, 1); /* at a change only */
}

/* Whoever sends it no more offers would never hear that another came. */
static void
another_server_may_take_answers (void **state)
{
  Bench *bench = *state;
  start_server (bench, "meagre");
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  wait_for (bench, &bench->n_answerable, 1, LIMIT_MS);
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
  kill_server (bench);
  start_server (bench, "plain");
  wait_for (bench, &bench->n_answerable, 2, LIMIT_MS);
  assert_int_equal (bench->n_answerable, 2);
  assert_true (bench->answerable);
}

/* Nothing is told of one that takes answers: that is what is taken to be so. */
static void
a_server_with_actions_is_not_told_of (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  Last last = wait_server (bench, 1, 0);
  clear_last (&last);
  wait_for (bench, &bench->n_answerable, 1, 300);
  assert_int_equal (bench->n_answerable, 0);
}

static void
no_server_is_told_once (void **state)
{
  Bench *bench = *state;
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  wait_for (bench, &bench->n_troubles, 1, LIMIT_MS);
  assert_int_equal (bench->n_troubles, 1);
  assert_int_equal (bench->trouble, CARPACE_CUE_NO_SERVER);
  assert_ptr_equal (bench->called_in, g_thread_self ());
  show (bench, CARPACE_CUE_LIMIT, "Limit", "");
  wait_for (bench, &bench->n_troubles, 2, 300);
  assert_int_equal (bench->n_troubles, 1);
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
  assert_no_stall (bench, "no server");
  assert_int_equal (bench->n_over, 0);

  start_server (bench, "plain"); /* it comes late: what still holds is shown */
  Last last = wait_server (bench, 1, 0);
  assert_string_equal (last.title, "Limit");
  clear_last (&last);
  wait_for (bench, &bench->n_over, 1, LIMIT_MS);
  assert_int_equal (bench->n_over, 1);
  wait_for (bench, NULL, 0, 50);
  last = wait_server (bench, 1, 0);
  clear_last (&last);
}

static void
a_frozen_server_is_told_once_and_blocks_nothing (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_MICRO_REST, "Stretch", "30 s");
  Last last = wait_server (bench, 1, 0);
  clear_last (&last);
  kill (bench->server, SIGSTOP);
  bench->longest_us = 0;
  bench->last_beat = g_get_monotonic_time ();
  int64_t asked = now_ms ();
  show (bench, CARPACE_CUE_LIMIT, "Limit", "");
  wait_for (bench, &bench->n_troubles, 1, LIMIT_MS);
  assert_int_equal (bench->trouble, CARPACE_CUE_SERVER_FROZEN);
  print_message ("frozen: told after %d ms\n", (int) (now_ms () - asked));
  assert_in_range (now_ms () - asked, 1900, 3000);
  for (int i = 0; i < 20; i++)
    {
      show (bench, CARPACE_CUE_RATING, "Rating", "");
      carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_LIMIT);
      wait_for (bench, NULL, 0, 10);
    }
  wait_for (bench, NULL, 0, 2300);
  assert_int_equal (bench->n_troubles, 1);
  assert_int_equal (bench->n_over, 0);
  assert_no_stall (bench, "frozen server");

  kill (bench->server, SIGCONT); /* thawed: the rating holds, the limit is over */
  last = wait_server (bench, 2, 0);
  assert_string_equal (last.title, "Rating");
  clear_last (&last);
  wait_for (bench, &bench->n_over, 1, LIMIT_MS);
  assert_int_equal (bench->n_over, 1);
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_MICRO_REST);
  last = wait_server (bench, 2, 1);
  clear_last (&last);
}

/* It has answered what it can do, and freezes over the notice itself. */
static void
a_server_that_freezes_over_a_notice_is_told (void **state)
{
  Bench *bench = *state;
  start_server (bench, "freezes");
  int64_t asked = now_ms ();
  show (bench, CARPACE_CUE_LIMIT, "Limit", "");
  wait_for (bench, &bench->n_troubles, 1, LIMIT_MS);
  assert_int_equal (bench->n_troubles, 1);
  assert_int_equal (bench->trouble, CARPACE_CUE_SERVER_FROZEN);
  assert_ptr_equal (bench->called_in, g_thread_self ());
  assert_in_range (now_ms () - asked, 1900, 3000);
  assert_no_stall (bench, "frozen over a notice");
  kill (bench->server, SIGCONT);
  wait_for (bench, &bench->n_over, 1, LIMIT_MS);
  assert_int_equal (bench->n_over, 1);
  show (bench, CARPACE_CUE_RATING, "Rating", "");
  Last last = wait_server (bench, 2, 0);
  assert_string_equal (last.title, "Rating");
  assert_int_equal (bench->n_troubles, 1);
  clear_last (&last);
}

/* The bus never answers for a dead server; it knows at once. */
static void
a_server_that_dies_takes_its_numbers_along (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_RATING, "Rating 1", "");
  show (bench, CARPACE_CUE_LIMIT, "Limit", "");
  Last last = wait_server (bench, 2, 0);
  clear_last (&last);
  kill_server (bench);
  carpace_cue_libnotify_close (bench->cues, CARPACE_CUE_LIMIT);
  start_server (bench, "plain");
  last = wait_server (bench, 1, 0); /* shown anew, and nothing of the new one's is closed */
  assert_string_equal (last.title, "Rating 1");
  clear_last (&last);
  show (bench, CARPACE_CUE_RATING, "Rating 2", "");
  last = wait_server (bench, 2, 0);
  assert_int_equal (last.id, 1);
  clear_last (&last);
  kill_server (bench);
  show (bench, CARPACE_CUE_RATING, "Rating 3", "");
  wait_for (bench, &bench->n_troubles, 1, LIMIT_MS);
  assert_int_equal (bench->n_troubles, 1);
  assert_no_stall (bench, "dead and restarted server");
}

static void
a_server_that_refuses_is_told (void **state)
{
  Bench *bench = *state;
  start_server (bench, "refuses");
  show (bench, CARPACE_CUE_RATING, "Rating", "");
  wait_for (bench, &bench->n_troubles, 1, LIMIT_MS);
  assert_int_equal (bench->trouble, CARPACE_CUE_SERVER_REFUSES);
}

static void
leaving_a_frozen_server_takes_no_time (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_RATING, "Rating", "");
  Last last = wait_server (bench, 1, 0);
  clear_last (&last);
  kill (bench->server, SIGSTOP);
  int64_t asked = now_ms ();
  carpace_cue_libnotify_free (bench->cues);
  bench->cues = NULL;
  print_message ("leaving a frozen server: %d ms\n", (int) (now_ms () - asked));
  assert_in_range (now_ms () - asked, 0, 400);
}

static void
leaving_closes_what_is_shown (void **state)
{
  Bench *bench = *state;
  start_server (bench, "plain");
  show (bench, CARPACE_CUE_RATING, "Rating", "");
  Last last = wait_server (bench, 1, 0);
  clear_last (&last);
  carpace_cue_libnotify_free (bench->cues);
  bench->cues = NULL;
  last = wait_server (bench, 1, 1);
  clear_last (&last);
}

/* A notice that the server has, but has not answered yet as the program ends. */
static void
leaving_closes_what_is_being_shown (void **state)
{
  Bench *bench = *state;
  start_server (bench, "holds");
  show (bench, CARPACE_CUE_RATING, "Rating", "");
  Last last = wait_server (bench, 1, 0);
  clear_last (&last);
  carpace_cue_libnotify_free (bench->cues);
  bench->cues = NULL;
  act (bench, 0, "answer");
  last = wait_server (bench, 1, 1);
  clear_last (&last);
}

#define ON_BUS(test) cmocka_unit_test_setup_teardown (test, set_up, tear_down)

int
main (int argc, char **argv)
{
  if (argc == 3 && g_str_equal (argv[1], "--server"))
    return serve (argv[2]);
  self_path = g_file_read_link ("/proc/self/exe", NULL);
  const struct CMUnitTest tests[] = {
    ON_BUS (shown_answered_and_closed),
    ON_BUS (text_is_shown_as_text),
    ON_BUS (endless_text_has_an_end),
    ON_BUS (a_server_that_leaves_what_it_closes_is_let_expire_it),
    ON_BUS (a_server_without_actions_is_given_none),
    ON_BUS (another_server_may_take_answers),
    ON_BUS (a_server_with_actions_is_not_told_of),
    ON_BUS (no_server_is_told_once),
    ON_BUS (a_frozen_server_is_told_once_and_blocks_nothing),
    ON_BUS (a_server_that_freezes_over_a_notice_is_told),
    ON_BUS (a_server_that_dies_takes_its_numbers_along),
    ON_BUS (a_server_that_refuses_is_told),
    ON_BUS (leaving_closes_what_is_shown),
    ON_BUS (leaving_closes_what_is_being_shown),
    ON_BUS (leaving_a_frozen_server_takes_no_time), /* the last: its thread stays behind */
  };
  return cmocka_run_group_tests (tests, NULL, NULL);
}
