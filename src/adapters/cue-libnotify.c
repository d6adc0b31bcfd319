/* SPDX-License-Identifier: GPL-3.0-or-later */
/* cue-libnotify.c: what is wanted on the screen, and a thread that sees to it. */
#include "cue-libnotify.h"

#include "carpace/names.h"

#include <gio/gio.h>
#include <libnotify/notify.h>
#include <string.h>

#define SERVER "org.freedesktop.Notifications"
#define SERVER_PATH "/org/freedesktop/Notifications"
#define SLOW_MS 2000
#define GOODBYE_MS 200
#define AT_ONCE_MS 1
/* A server need not be handed more than this of a stranger's text. */
#define MOST_CHARACTERS 400

/* What the caller asked for last, for one cue. */
typedef struct
{
  guint serial; /* 0: nothing was ever asked for */
  bool shown;
  CarpaceNotice notice; /* where shown */
} Want;

/* What the thread made of it. */
typedef struct
{
  guint serial; /* of the want that was seen to; with the lock */
  NotifyNotification *notification;
} Have;

struct CarpaceCueLibnotify
{
  gatomicrefcount refs;
  CarpaceCueLook look;
  /* the caller's context */
  GMainContext *context;
  CarpaceCueListener listener;
  bool gone;
  /* between the threads */
  GMutex lock;
  GCond finished_now;
  Want want[CARPACE_N_CUES];
  bool quitting, finished;
  bool told, frozen; /* trouble was, and that the server stopped answering */
  GMainContext *work;
  /* the thread's own */
  GMainLoop *loop;
  GDBusConnection *bus;
  guint watch;
  char *owner;
  bool asking, markup, actions;
  bool mute; /* it was told that the server takes no answers */
  GSource *slow; /* in the caller's context: this thread may be the one that waits */
  Have have[CARPACE_N_CUES];
};

static void see_to_it (CarpaceCueLibnotify *cues);

/* ---- memory ---- */

static void
copy_notice (const CarpaceNotice *from, CarpaceNotice *ret_to)
{
  *ret_to = *from;
  ret_to->title = g_strdup (from->title);
  ret_to->body = g_strdup (from->body);
  for (int32_t i = 0; i < from->n_actions; i++)
    ret_to->action[i].label = g_strdup (from->action[i].label);
}

static void
clear_notice (CarpaceNotice *notice)
{
  g_free (notice->title);
  g_free (notice->body);
  for (int32_t i = 0; i < notice->n_actions; i++)
    g_free (notice->action[i].label);
  memset (notice, 0, sizeof *notice);
}

static void
unref (CarpaceCueLibnotify *cues)
{
  if (!g_atomic_ref_count_dec (&cues->refs))
    return;
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    clear_notice (&cues->want[cue].notice);
  g_main_context_unref (cues->context);
  g_main_context_unref (cues->work);
  g_mutex_clear (&cues->lock);
  g_cond_clear (&cues->finished_now);
  g_free ((char *) cues->look.app_name);
  g_free ((char *) cues->look.app_id);
  g_free ((char *) cues->look.icon);
  g_free ((char *) cues->look.open_label);
  g_free (cues);
}

static CarpaceCueLibnotify *
ref (CarpaceCueLibnotify *cues)
{
  g_atomic_ref_count_inc (&cues->refs);
  return cues;
}

static void
unref_data (gpointer data)
{
  unref (data);
}

/* ---- back to the caller ---- */

typedef enum
{
  NEWS_ANSWERED,
  NEWS_OPENED,
  NEWS_TROUBLE,
  NEWS_OVER,
  NEWS_ANSWERABLE
} NewsKind;

typedef struct
{
  CarpaceCueLibnotify *cues;
  NewsKind kind;
  CarpaceCue cue;
  CarpaceEventKind answer;
  CarpaceCueTrouble trouble;
  bool answerable;
} News;

static gboolean
deliver (gpointer data)
{
  const News *news = data;
  const CarpaceCueListener *to = &news->cues->listener;
  if (news->cues->gone)
    return G_SOURCE_REMOVE;
  switch (news->kind)
    {
    case NEWS_ANSWERED:
      to->answered (to->self, news->cue, news->answer);
      break;
    case NEWS_OPENED:
      to->opened (to->self, news->cue);
      break;
    case NEWS_TROUBLE:
      to->trouble (to->self, news->trouble);
      break;
    case NEWS_OVER:
      to->over (to->self);
      break;
    case NEWS_ANSWERABLE:
      to->answerable (to->self, news->answerable);
      break;
    }
  return G_SOURCE_REMOVE;
}

static void
free_news (gpointer data)
{
  unref (((News *) data)->cues);
  g_free (data);
}

static void
send_news (News news)
{
  ref (news.cues);
  GSource *source = g_idle_source_new ();
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, deliver, g_memdup2 (&news, sizeof news), free_news);
  g_source_attach (source, news.cues->context);
  g_source_unref (source);
}

/* ---- one notification ---- */

/* Text of a plan is a stranger's: valid UTF-8, no control characters, not
 * endless. */
static char *
plain (const char *text)
{
  char *valid = g_utf8_make_valid (text != NULL ? text : "", -1);
  GString *clean = g_string_new (NULL);
  int n = 0;
  for (const char *c = valid; *c != '\0' && n < MOST_CHARACTERS; c = g_utf8_next_char (c), n++)
    {
      gunichar letter = g_utf8_get_char (c);
      g_string_append_unichar (clean, g_unichar_iscntrl (letter) && letter != '\n' ? ' ' : letter);
    }
  g_free (valid);
  return g_string_free (clean, FALSE);
}

/* For a server that does not say it takes markup. dunst 1.9 takes it all the
 * same unless its file says otherwise, so neither escaping nor leaving it as it
 * is will do: brackets become quotation brackets, and a word joiner keeps an
 * ampersand from beginning an entity. */
static char *
without_markup (char *text)
{
  GString *out = g_string_new (NULL);
  for (const char *c = text; *c != '\0'; c++)
    if (*c == '<' || *c == '>')
      g_string_append (out, *c == '<' ? "\342\200\271" : "\342\200\272");
    else if (*c == '&' && (g_ascii_isalnum (c[1]) || c[1] == '#'))
      g_string_append (out, "&\342\201\240");
    else
      g_string_append_c (out, *c);
  g_free (text);
  return g_string_free (out, FALSE);
}

static char *
body_text (const CarpaceCueLibnotify *cues, const char *text)
{
  char *body = plain (text);
  if (!cues->markup)
    return without_markup (body);
  char *escaped = g_markup_escape_text (body, -1);
  g_free (body);
  return escaped;
}

/* Which cue a notification is of, kept with its actions. */
typedef struct
{
  CarpaceCueLibnotify *cues;
  CarpaceCue cue;
} Tie;

static void
acted (NotifyNotification *notification, char *action, gpointer user_data)
{
  const Tie *tie = user_data;
  News news = { .cues = tie->cues, .cue = tie->cue, .kind = NEWS_OPENED };
  int32_t event = carpace_name_value (CARPACE_WORDS_EVENT, action);
  if (event >= 0)
    {
      news.kind = NEWS_ANSWERED;
      news.answer = (CarpaceEventKind) event;
    }
  send_news (news);
}

static void
add_action (CarpaceCueLibnotify *cues, NotifyNotification *notification, CarpaceCue cue, const char *id,
            const char *label)
{
  Tie *tie = g_new (Tie, 1);
  *tie = (Tie) { .cues = cues, .cue = cue };
  char *text = plain (label);
  notify_notification_add_action (notification, id, text, acted, tie, g_free);
  g_free (text);
}

static void
closed (NotifyNotification *notification, gpointer user_data)
{
  CarpaceCueLibnotify *cues = user_data;
  g_mutex_lock (&cues->lock);
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    if (cues->have[cue].notification == notification)
      {
        g_clear_object (&cues->have[cue].notification);
        if (cues->want[cue].serial == cues->have[cue].serial)
          cues->want[cue].shown = false; /* the player has put it away: not to come back by itself */
      }
  g_mutex_unlock (&cues->lock);
}

static void
forget (CarpaceCueLibnotify *cues, int cue)
{
  if (cues->have[cue].notification != NULL)
    g_signal_handlers_disconnect_by_data (cues->have[cue].notification, cues);
  g_clear_object (&cues->have[cue].notification);
}

static void
fill (CarpaceCueLibnotify *cues, NotifyNotification *notification, const CarpaceNotice *notice)
{
  notify_notification_set_urgency (notification, notice->quiet ? NOTIFY_URGENCY_LOW : NOTIFY_URGENCY_NORMAL);
  notify_notification_set_timeout (notification, notice->passes ? NOTIFY_EXPIRES_DEFAULT : NOTIFY_EXPIRES_NEVER);
  notify_notification_set_hint (notification, "desktop-entry", g_variant_new_string (cues->look.app_id));
  notify_notification_set_hint (notification, "suppress-sound", g_variant_new_boolean (TRUE));
  notify_notification_clear_actions (notification);
  if (!cues->actions)
    return;
  for (int32_t i = 0; i < notice->n_actions; i++)
    add_action (cues, notification, notice->cue, carpace_name (CARPACE_WORDS_EVENT, notice->action[i].event),
                notice->action[i].label);
  add_action (cues, notification, notice->cue, "default", cues->look.open_label);
}

static bool
show (CarpaceCueLibnotify *cues, const CarpaceNotice *notice, GError **error)
{
  Have *have = &cues->have[notice->cue];
  char *title = plain (notice->title), *body = body_text (cues, notice->body);
  if (have->notification == NULL)
    {
      have->notification = notify_notification_new (title, body, cues->look.icon);
      g_signal_connect (have->notification, "closed", G_CALLBACK (closed), cues);
    }
  else
    notify_notification_update (have->notification, title, body, cues->look.icon);
  g_free (title);
  g_free (body);
  fill (cues, have->notification, notice);
  if (notify_notification_show (have->notification, error))
    return true;
  forget (cues, (int) notice->cue);
  return false;
}

/* One server tells of the end of a notice that it is asked to close, and leaves it on the screen, before all that come
 * later: notification-daemon 3.20. What it lets expire does go. */
static bool
leaves_what_it_closes (void)
{
  char *name = NULL, *vendor = NULL, *version = NULL, *spec = NULL;
  bool leaves = notify_get_server_info (&name, &vendor, &version, &spec) && g_strcmp0 (name, "Notification Daemon") == 0
                && g_strcmp0 (vendor, "GNOME") == 0;
  g_free (name);
  g_free (vendor);
  g_free (version);
  g_free (spec);
  return leaves;
}

static void
take_off (NotifyNotification *notification)
{
  if (leaves_what_it_closes ())
    {
      notify_notification_set_timeout (notification, AT_ONCE_MS);
      notify_notification_show (notification, NULL);
    }
  notify_notification_close (notification, NULL);
}

/* ---- the thread ---- */

/* With the lock held. */
static bool
wants_more (CarpaceCueLibnotify *cues)
{
  bool more = false;
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    more |= cues->want[cue].shown && cues->want[cue].serial != cues->have[cue].serial;
  return more;
}

static void
tell_trouble (CarpaceCueLibnotify *cues, CarpaceCueTrouble trouble)
{
  g_mutex_lock (&cues->lock);
  bool tell = !cues->told && wants_more (cues);
  if (tell)
    {
      cues->told = true;
      cues->frozen = trouble == CARPACE_CUE_SERVER_FROZEN;
    }
  g_mutex_unlock (&cues->lock);
  if (tell)
    send_news ((News) { .cues = cues, .kind = NEWS_TROUBLE, .trouble = trouble });
}

static void
tell_over (CarpaceCueLibnotify *cues)
{
  g_mutex_lock (&cues->lock);
  bool told = cues->told;
  cues->told = false;
  g_mutex_unlock (&cues->lock);
  if (told)
    send_news ((News) { .cues = cues, .kind = NEWS_OVER });
}

static bool
was_told (CarpaceCueLibnotify *cues)
{
  g_mutex_lock (&cues->lock);
  bool told = cues->told;
  g_mutex_unlock (&cues->lock);
  return told;
}

/* A pass went well: what was told before it is over, and that the server did not answer
 * for a while. That it refuses one notice says nothing of the next. */
static void
tell_well (CarpaceCueLibnotify *cues, bool told_before)
{
  g_mutex_lock (&cues->lock);
  bool over = told_before || cues->frozen;
  if (!over)
    cues->told = false;
  g_mutex_unlock (&cues->lock);
  if (over)
    tell_over (cues);
}

/* ---- a server that does not answer ---- */

static gboolean
slow (gpointer user_data)
{
  tell_trouble (user_data, CARPACE_CUE_SERVER_FROZEN);
  return G_SOURCE_REMOVE;
}

static void
stop_slow (CarpaceCueLibnotify *cues)
{
  if (cues->slow != NULL)
    g_source_destroy (cues->slow);
  g_clear_pointer (&cues->slow, g_source_unref);
}

/* Each call to the server has its time: it can freeze between a question that it has
 * answered and a notice, for which the library waits 25 s. */
static void
start_slow (CarpaceCueLibnotify *cues)
{
  stop_slow (cues);
  cues->slow = g_timeout_source_new (SLOW_MS);
  g_source_set_callback (cues->slow, slow, ref (cues), unref_data);
  g_source_attach (cues->slow, cues->context);
}

static CarpaceCueTrouble
trouble_of (const GError *error)
{
  if (g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_NO_REPLY)
      || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_TIMED_OUT)
      || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_TIMEOUT)
      || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_TIMED_OUT))
    return CARPACE_CUE_SERVER_FROZEN;
  if (g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_SERVICE_UNKNOWN)
      || g_error_matches (error, G_DBUS_ERROR, G_DBUS_ERROR_NAME_HAS_NO_OWNER)
      || g_error_matches (error, G_IO_ERROR, G_IO_ERROR_CLOSED)
      || (error->domain == G_DBUS_ERROR && error->code >= G_DBUS_ERROR_SPAWN_EXEC_FAILED
          && error->code <= G_DBUS_ERROR_SPAWN_NO_MEMORY))
    return CARPACE_CUE_NO_SERVER;
  return CARPACE_CUE_SERVER_REFUSES;
}

/* What is asked for now; @return false where it has been seen to. */
static bool
take_want (CarpaceCueLibnotify *cues, int cue, Want *ret_want)
{
  g_mutex_lock (&cues->lock);
  const Want *want = &cues->want[cue];
  bool due = want->serial != cues->have[cue].serial;
  if (due)
    {
      *ret_want = *want;
      if (want->shown)
        copy_notice (&want->notice, &ret_want->notice);
    }
  g_mutex_unlock (&cues->lock);
  return due;
}

static void
seen_to (CarpaceCueLibnotify *cues, int cue, guint serial)
{
  g_mutex_lock (&cues->lock);
  cues->have[cue].serial = serial;
  g_mutex_unlock (&cues->lock);
}

/* @return false where the server has stopped answering in the middle of it */
static bool
see_to_cue (CarpaceCueLibnotify *cues, int cue, bool *ret_spoke)
{
  Want want;
  *ret_spoke = take_want (cues, cue, &want);
  if (!*ret_spoke)
    return true;
  start_slow (cues);
  if (!want.shown)
    {
      if (cues->have[cue].notification != NULL)
        take_off (cues->have[cue].notification);
      stop_slow (cues);
      forget (cues, cue);
      seen_to (cues, cue, want.serial);
      return true;
    }
  GError *error = NULL;
  bool shown = show (cues, &want.notice, &error);
  stop_slow (cues);
  clear_notice (&want.notice);
  CarpaceCueTrouble trouble = shown ? CARPACE_CUE_SERVER_REFUSES : trouble_of (error);
  if (!shown)
    tell_trouble (cues, trouble);
  g_clear_error (&error);
  if (shown || trouble == CARPACE_CUE_SERVER_REFUSES)
    seen_to (cues, cue, want.serial);
  return shown || trouble == CARPACE_CUE_SERVER_REFUSES;
}

static void
tell_answerable (CarpaceCueLibnotify *cues, bool answerable)
{
  if (cues->mute != answerable)
    return;
  cues->mute = !answerable;
  send_news ((News) { .cues = cues, .kind = NEWS_ANSWERABLE, .answerable = answerable });
}

static void
read_capabilities (CarpaceCueLibnotify *cues, GVariant *reply)
{
  const char **words = NULL;
  g_variant_get (reply, "(^a&s)", &words);
  cues->markup = g_strv_contains (words, "body-markup");
  cues->actions = g_strv_contains (words, "actions");
  g_free (words);
  tell_answerable (cues, cues->actions);
}

static void
finish (CarpaceCueLibnotify *cues)
{
  g_mutex_lock (&cues->lock);
  bool quitting = cues->quitting;
  g_mutex_unlock (&cues->lock);
  if (quitting)
    g_main_loop_quit (cues->loop); /* only ever called while it runs */
}

static void
answered (GObject *bus, GAsyncResult *result, gpointer user_data)
{
  CarpaceCueLibnotify *cues = user_data;
  GError *error = NULL;
  GVariant *reply = g_dbus_connection_call_finish (G_DBUS_CONNECTION (bus), result, &error);
  cues->asking = false;
  stop_slow (cues);
  bool ok = reply != NULL, told_before = was_told (cues), spoke = false;
  if (ok)
    {
      read_capabilities (cues, reply);
      g_variant_unref (reply);
      for (int cue = 0; cue < CARPACE_N_CUES && ok && !spoke; cue++)
        ok = see_to_cue (cues, cue, &spoke);
      if (ok)
        tell_well (cues, told_before);
      see_to_it (cues); /* the next one, and what was asked for meanwhile: the server is asked before each */
    }
  else
    tell_trouble (cues, trouble_of (error));
  g_clear_error (&error);
  if (!cues->asking) /* else there is more to see to before it ends */
    finish (cues);
  unref (cues);
}

/* The question stays open for as long as the server takes: once it thaws,
 * what still holds is shown, and nobody has had to ask again and again. */
static void
ask (CarpaceCueLibnotify *cues)
{
  cues->asking = true;
  g_dbus_connection_call (cues->bus, SERVER, SERVER_PATH, SERVER, "GetCapabilities", NULL, G_VARIANT_TYPE ("(as)"),
                          G_DBUS_CALL_FLAGS_NONE, G_MAXINT, NULL, answered, ref (cues));
  start_slow (cues);
}

static void
server_came (GDBusConnection *bus, const char *name, const char *owner, gpointer user_data)
{
  CarpaceCueLibnotify *cues = user_data;
  if (g_strcmp0 (owner, cues->owner) == 0)
    return;
  bool another = cues->owner != NULL;
  g_free (cues->owner);
  cues->owner = g_strdup (owner);
  if (!another)
    return;
  /* Its numbers begin again: an old one would close somebody else's. */
  tell_over (cues);
  tell_answerable (cues, true); /* until it has been asked */
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      forget (cues, cue);
      seen_to (cues, cue, 0);
    }
  see_to_it (cues);
}

static void
server_went (GDBusConnection *bus, const char *name, gpointer user_data)
{
  CarpaceCueLibnotify *cues = user_data;
  g_free (cues->owner);
  cues->owner = g_strdup ("");
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    forget (cues, cue);
}

static bool
connect_bus (CarpaceCueLibnotify *cues)
{
  if (cues->bus != NULL && g_dbus_connection_is_closed (cues->bus))
    {
      g_bus_unwatch_name (cues->watch);
      g_clear_object (&cues->bus);
    }
  if (cues->bus != NULL)
    return true;
  cues->bus = g_bus_get_sync (G_BUS_TYPE_SESSION, NULL, NULL);
  if (cues->bus == NULL)
    return false;
  g_dbus_connection_set_exit_on_close (cues->bus, FALSE);
  cues->watch = g_bus_watch_name_on_connection (cues->bus, SERVER, G_BUS_NAME_WATCHER_FLAGS_NONE, server_came,
                                                server_went, cues, NULL);
  return true;
}

/* Closing what is not on the screen needs no server. */
static bool
needs_server (CarpaceCueLibnotify *cues)
{
  bool needed = false;
  g_mutex_lock (&cues->lock);
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    {
      const Want *want = &cues->want[cue];
      if (!want->shown && cues->have[cue].notification == NULL)
        cues->have[cue].serial = want->serial;
      needed |= want->serial != cues->have[cue].serial;
    }
  g_mutex_unlock (&cues->lock);
  return needed;
}

static void
see_to_it (CarpaceCueLibnotify *cues)
{
  if (cues->asking)
    return;
  if (!needs_server (cues))
    finish (cues);
  else if (connect_bus (cues))
    ask (cues);
  else
    {
      tell_trouble (cues, CARPACE_CUE_NO_SERVER);
      finish (cues);
    }
}

static void
run (CarpaceCueLibnotify *cues)
{
  if (!notify_is_initted ())
    notify_init (cues->look.app_name);
  cues->loop = g_main_loop_new (cues->work, FALSE);
  g_main_loop_run (cues->loop);
  stop_slow (cues);
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    forget (cues, cue);
  notify_uninit (); /* its proxy is bound to this thread's context */
  if (cues->watch != 0)
    g_bus_unwatch_name (cues->watch);
  g_clear_object (&cues->bus);
  g_clear_pointer (&cues->owner, g_free);
  g_clear_pointer (&cues->loop, g_main_loop_unref);
}

static gpointer
thread (gpointer data)
{
  CarpaceCueLibnotify *cues = data;
  g_main_context_push_thread_default (cues->work);
  run (cues);
  g_mutex_lock (&cues->lock);
  cues->finished = true;
  g_cond_signal (&cues->finished_now);
  g_mutex_unlock (&cues->lock);
  while (g_main_context_iteration (cues->work, FALSE))
    ; /* a last wake holds a reference */
  g_main_context_pop_thread_default (cues->work);
  unref (cues);
  return NULL;
}

/* ---- the caller's side ---- */

static gboolean
wake (gpointer user_data)
{
  CarpaceCueLibnotify *cues = user_data;
  if (cues->loop != NULL)
    see_to_it (cues);
  return G_SOURCE_REMOVE;
}

/* With the lock held: behind the last turn of the thread nothing is attached. */
static void
wake_thread (CarpaceCueLibnotify *cues)
{
  if (cues->finished)
    return;
  GSource *source = g_idle_source_new ();
  g_source_set_priority (source, G_PRIORITY_DEFAULT);
  g_source_set_callback (source, wake, ref (cues), unref_data);
  g_source_attach (source, cues->work);
  g_source_unref (source);
}

void
carpace_cue_libnotify_show (CarpaceCueLibnotify *cues, const CarpaceNotice *notice)
{
  Want *want = &cues->want[notice->cue];
  g_mutex_lock (&cues->lock);
  clear_notice (&want->notice);
  copy_notice (notice, &want->notice);
  want->shown = true;
  want->serial++;
  wake_thread (cues);
  g_mutex_unlock (&cues->lock);
}

void
carpace_cue_libnotify_close (CarpaceCueLibnotify *cues, CarpaceCue cue)
{
  Want *want = &cues->want[cue];
  g_mutex_lock (&cues->lock);
  bool was_shown = want->shown;
  clear_notice (&want->notice);
  want->shown = false;
  want->serial += was_shown ? 1 : 0;
  if (was_shown)
    wake_thread (cues);
  g_mutex_unlock (&cues->lock);
}

CarpaceCueLibnotify *
carpace_cue_libnotify_new (const CarpaceCueLook *look, GMainContext *context, CarpaceCueListener listener)
{
  CarpaceCueLibnotify *cues = g_new0 (CarpaceCueLibnotify, 1);
  g_atomic_ref_count_init (&cues->refs);
  g_mutex_init (&cues->lock);
  g_cond_init (&cues->finished_now);
  cues->look = (CarpaceCueLook) { g_strdup (look->app_name), g_strdup (look->app_id), g_strdup (look->icon),
                                  g_strdup (look->open_label) };
  cues->context = g_main_context_ref (context != NULL ? context : g_main_context_default ());
  cues->work = g_main_context_new ();
  cues->listener = listener;
  g_thread_unref (g_thread_new ("carpace-cues", thread, ref (cues)));
  return cues;
}

void
carpace_cue_libnotify_free (CarpaceCueLibnotify *cues)
{
  if (cues == NULL)
    return;
  cues->gone = true;
  for (int cue = 0; cue < CARPACE_N_CUES; cue++)
    carpace_cue_libnotify_close (cues, (CarpaceCue) cue);
  gint64 until = g_get_monotonic_time () + GOODBYE_MS * 1000;
  g_mutex_lock (&cues->lock);
  cues->quitting = true;
  wake_thread (cues);
  while (!cues->finished && g_cond_wait_until (&cues->finished_now, &cues->lock, until))
    ;
  g_mutex_unlock (&cues->lock);
  unref (cues);
}
