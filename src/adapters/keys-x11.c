/* SPDX-License-Identifier: GPL-3.0-or-later */
/* keys-x11.c: passive grabs on the root windows, over XCB. */
#include "keys-x11.h"

#include "x11.h"

#include <gio/gio.h>
#include <stdlib.h>
#include <string.h>
#include <xcb/xcb.h>
#include <xcb/xcb_keysyms.h>

/* X11/keysymdef.h */
#define SYM_ESCAPE 0xff1b
#define SYM_NUM_LOCK 0xff7f
#define SYM_ALT_L 0xffe9
#define SYM_SUPER_L 0xffeb
#define SYM_F1 0xffbe
#define SYM_KP_SEPARATOR 0xffac
#define SYM_KP_DECIMAL 0xffae
#define SYM_KP_0 0xffb0

#define TEN 10
#define LETS_GO 11
#define N_KEYCODES 256
#define MOST_GRABS 512

struct CarpaceKeysX11
{
  CarpaceChord chord;
  CarpaceKeysListener listener;
  GMainContext *context;
  xcb_connection_t *x;
  xcb_key_symbols_t *symbols;
  uint16_t alt_mask, super_mask, num_lock_mask;
  int8_t meaning[N_KEYCODES]; /* of a key while armed: 0..10, LETS_GO, -1 */
  bool asked, holds_chord, armed, occupied_told;
  GSource *events, *timer, *soon;
};

/* ---- the chord in words ---- */

static bool
read_key (const char *word, uint32_t *ret_keysym)
{
  if (g_ascii_isalnum (word[0]) && word[1] == '\0')
    {
      *ret_keysym = (uint32_t) g_ascii_tolower (word[0]);
      return true;
    }
  guint64 number = 0;
  if (g_ascii_tolower (word[0]) != 'f' || !g_ascii_string_to_unsigned (word + 1, 10, 1, 12, &number, NULL))
    return false;
  *ret_keysym = SYM_F1 + (uint32_t) number - 1;
  return true;
}

static bool *
held (CarpaceChord *chord, const char *word)
{
  return g_ascii_strcasecmp (word, "ctrl") == 0    ? &chord->ctrl
         : g_ascii_strcasecmp (word, "alt") == 0   ? &chord->alt
         : g_ascii_strcasecmp (word, "shift") == 0 ? &chord->shift
         : g_ascii_strcasecmp (word, "super") == 0 ? &chord->super
                                                   : NULL;
}

bool
carpace_chord_read (const char *text, CarpaceChord *ret_chord)
{
  if (text == NULL || strlen (text) > 40)
    return false;
  CarpaceChord chord = { 0 };
  char **words = g_strsplit (text, "+", 8);
  guint n = g_strv_length (words);
  bool fits = n >= 2;
  for (guint i = 0; fits && i + 1 < n; i++)
    {
      bool *key = held (&chord, words[i]);
      fits = key != NULL && !*key;
      if (fits)
        *key = true;
    }
  fits = fits && (chord.ctrl || chord.alt || chord.super) && read_key (words[n - 1], &chord.keysym);
  g_strfreev (words);
  if (fits)
    *ret_chord = chord;
  return fits;
}

/* ---- the keyboard ---- */

static bool
has_symbol (CarpaceKeysX11 *keys, xcb_keycode_t code, xcb_keysym_t symbol)
{
  xcb_keycode_t *codes = xcb_key_symbols_get_keycode (keys->symbols, symbol);
  bool has = false;
  for (xcb_keycode_t *each = codes; each != NULL && *each != XCB_NO_SYMBOL && !has; each++)
    has = *each == code;
  free (codes);
  return has;
}

static uint16_t
mask_of (CarpaceKeysX11 *keys, const xcb_get_modifier_mapping_reply_t *map, xcb_keysym_t symbol)
{
  const xcb_keycode_t *codes = xcb_get_modifier_mapping_keycodes (map);
  for (int bit = 0; bit < 8; bit++)
    for (int i = 0; i < map->keycodes_per_modifier; i++)
      {
        xcb_keycode_t code = codes[bit * map->keycodes_per_modifier + i];
        if (code != 0 && has_symbol (keys, code, symbol))
          return (uint16_t) (1u << bit);
      }
  return 0;
}

static void
read_modifiers (CarpaceKeysX11 *keys)
{
  xcb_get_modifier_mapping_reply_t *map
    = xcb_get_modifier_mapping_reply (keys->x, xcb_get_modifier_mapping (keys->x), NULL);
  if (map == NULL)
    return;
  keys->num_lock_mask = mask_of (keys, map, SYM_NUM_LOCK);
  keys->alt_mask = mask_of (keys, map, SYM_ALT_L);
  keys->super_mask = mask_of (keys, map, SYM_SUPER_L);
  free (map);
}

static void
give_meaning (CarpaceKeysX11 *keys, xcb_keysym_t symbol, int8_t meaning, xcb_keycode_t *last)
{
  xcb_keycode_t *codes = xcb_key_symbols_get_keycode (keys->symbols, symbol);
  for (xcb_keycode_t *each = codes; each != NULL && *each != XCB_NO_SYMBOL; each++)
    if (keys->meaning[*each] < 0)
      {
        keys->meaning[*each] = meaning;
        if (last != NULL && *each > *last)
          *last = *each;
      }
  free (codes);
}

/* Digits wherever the layout has them, with or without Shift. */
static void
read_meanings (CarpaceKeysX11 *keys)
{
  xcb_keycode_t last = 0;
  memset (keys->meaning, -1, sizeof keys->meaning);
  for (int8_t digit = 0; digit <= 9; digit++)
    {
      give_meaning (keys, (xcb_keysym_t) ('0' + digit), digit, &last);
      give_meaning (keys, SYM_KP_0 + (xcb_keysym_t) digit, digit, NULL);
    }
  give_meaning (keys, SYM_ESCAPE, LETS_GO, NULL);
  if (last != 0 && last < N_KEYCODES - 1 && keys->meaning[last + 1] < 0)
    keys->meaning[last + 1] = TEN;
  give_meaning (keys, SYM_KP_DECIMAL, TEN, NULL);
  give_meaning (keys, SYM_KP_SEPARATOR, TEN, NULL);
}

static void
read_keyboard (CarpaceKeysX11 *keys)
{
  read_modifiers (keys);
  read_meanings (keys);
}

/* ---- grabs ---- */

typedef struct
{
  CarpaceKeysX11 *keys;
  int n;
  xcb_void_cookie_t cookie[MOST_GRABS];
} Grabs;

static void
grab_on_roots (Grabs *grabs, xcb_keycode_t code, uint16_t modifiers)
{
  xcb_connection_t *x = grabs->keys->x;
  for (xcb_screen_iterator_t screen = xcb_setup_roots_iterator (xcb_get_setup (x)); screen.rem > 0 && grabs->n < MOST_GRABS;
       xcb_screen_next (&screen))
    grabs->cookie[grabs->n++] = xcb_grab_key_checked (x, 0, screen.data->root, modifiers, code, XCB_GRAB_MODE_ASYNC,
                                                      XCB_GRAB_MODE_ASYNC);
}

/* A grab holds for one set of modifiers; CapsLock and NumLock must not matter. */
static void
grab_with_locks (Grabs *grabs, xcb_keycode_t code, uint16_t modifiers)
{
  uint16_t num = grabs->keys->num_lock_mask;
  grab_on_roots (grabs, code, modifiers);
  grab_on_roots (grabs, code, modifiers | XCB_MOD_MASK_LOCK);
  if (num == 0)
    return;
  grab_on_roots (grabs, code, modifiers | num);
  grab_on_roots (grabs, code, modifiers | num | XCB_MOD_MASK_LOCK);
}

/* @return how many of them another client has */
static int
refused (Grabs *grabs)
{
  int n = 0;
  for (int i = 0; i < grabs->n; i++)
    {
      xcb_generic_error_t *error = xcb_request_check (grabs->keys->x, grabs->cookie[i]);
      n += error != NULL ? 1 : 0;
      free (error);
    }
  return n;
}

static void
release_all (CarpaceKeysX11 *keys)
{
  for (xcb_screen_iterator_t screen = xcb_setup_roots_iterator (xcb_get_setup (keys->x)); screen.rem > 0;
       xcb_screen_next (&screen))
    xcb_ungrab_key (keys->x, XCB_GRAB_ANY, screen.data->root, XCB_MOD_MASK_ANY);
  keys->holds_chord = false;
}

/* The four modifiers of a chord, as this keyboard has them; 0 where it lacks one. */
static uint16_t
chord_mask (const CarpaceKeysX11 *keys)
{
  const CarpaceChord *chord = &keys->chord;
  if ((chord->alt && keys->alt_mask == 0) || (chord->super && keys->super_mask == 0))
    return 0;
  return (uint16_t) ((chord->ctrl ? XCB_MOD_MASK_CONTROL : 0) | (chord->shift ? XCB_MOD_MASK_SHIFT : 0)
                     | (chord->alt ? keys->alt_mask : 0) | (chord->super ? keys->super_mask : 0));
}

/* @return false where it cannot be had */
static bool
grab_chord (CarpaceKeysX11 *keys)
{
  Grabs grabs = { .keys = keys };
  uint16_t mask = chord_mask (keys);
  xcb_keycode_t *codes = mask != 0 ? xcb_key_symbols_get_keycode (keys->symbols, keys->chord.keysym) : NULL;
  for (xcb_keycode_t *each = codes; each != NULL && *each != XCB_NO_SYMBOL; each++)
    grab_with_locks (&grabs, *each, mask);
  free (codes);
  keys->holds_chord = grabs.n > 0 && refused (&grabs) == 0;
  if (!keys->holds_chord)
    release_all (keys);
  return keys->holds_chord;
}

/* A key that another client has is that client's: the others still answer. */
static void
grab_digits (CarpaceKeysX11 *keys)
{
  Grabs grabs = { .keys = keys };
  for (int code = 0; code < N_KEYCODES; code++)
    if (keys->meaning[code] >= 0)
      {
        grab_with_locks (&grabs, (xcb_keycode_t) code, 0);
        grab_with_locks (&grabs, (xcb_keycode_t) code, XCB_MOD_MASK_SHIFT);
      }
  refused (&grabs);
}

/* ---- armed or not ---- */

static void
stop (GSource **source)
{
  if (*source != NULL)
    g_source_destroy (*source);
  g_clear_pointer (source, g_source_unref);
}

static void
let_go (CarpaceKeysX11 *keys)
{
  if (!keys->armed)
    return;
  keys->armed = false;
  stop (&keys->timer);
  release_all (keys);
  xcb_ungrab_keyboard (keys->x, XCB_CURRENT_TIME); /* a key may be down still */
  if (keys->asked)
    grab_chord (keys);
  xcb_flush (keys->x);
  keys->listener.armed (keys->listener.self, false);
}

static gboolean
armed_long_enough (gpointer user_data)
{
  let_go (user_data);
  return G_SOURCE_REMOVE;
}

void
carpace_keys_x11_arm (CarpaceKeysX11 *keys)
{
  if (!keys->asked || keys->armed)
    return;
  keys->armed = true;
  grab_digits (keys);
  xcb_flush (keys->x);
  keys->timer = g_timeout_source_new (CARPACE_KEYS_ARMED_MS);
  g_source_set_callback (keys->timer, armed_long_enough, keys, NULL);
  g_source_attach (keys->timer, keys->context);
  keys->listener.armed (keys->listener.self, true);
}

static void
key_pressed (CarpaceKeysX11 *keys, const xcb_key_press_event_t *event)
{
  if (!keys->armed)
    {
      carpace_keys_x11_arm (keys); /* nothing but the chord is grabbed now */
      return;
    }
  int meaning = keys->meaning[event->detail];
  if (meaning < 0)
    return;
  let_go (keys);
  if (meaning <= TEN)
    keys->listener.digit (keys->listener.self, meaning);
  else if (keys->listener.put_away != NULL)
    keys->listener.put_away (keys->listener.self);
}

static gboolean
tell_occupied (gpointer user_data)
{
  CarpaceKeysX11 *keys = user_data;
  g_clear_pointer (&keys->soon, g_source_unref);
  keys->listener.occupied (keys->listener.self);
  return G_SOURCE_REMOVE;
}

static void
take_chord (CarpaceKeysX11 *keys)
{
  if (grab_chord (keys) || keys->occupied_told)
    return;
  keys->occupied_told = true;
  keys->soon = g_idle_source_new ();
  g_source_set_callback (keys->soon, tell_occupied, keys, NULL);
  g_source_attach (keys->soon, keys->context);
}

static void
keyboard_changed (CarpaceKeysX11 *keys, const xcb_mapping_notify_event_t *event)
{
  xcb_mapping_notify_event_t changed = *event;

  if (event->request == XCB_MAPPING_POINTER)
    return;
  xcb_refresh_keyboard_mapping (keys->symbols, &changed);
  read_keyboard (keys);
  if (!keys->asked)
    return;
  release_all (keys);
  take_chord (keys);
  if (keys->armed)
    grab_digits (keys);
}

/* ---- events ---- */

static void
take_event (void *self, const xcb_generic_event_t *event)
{
  CarpaceKeysX11 *keys = self;
  uint8_t kind = event->response_type & 0x7f;
  if (kind == XCB_KEY_PRESS && keys->asked)
    key_pressed (keys, (const xcb_key_press_event_t *) event);
  else if (kind == XCB_MAPPING_NOTIFY)
    keyboard_changed (keys, (const xcb_mapping_notify_event_t *) event);
}

/* ---- from outside ---- */

void
carpace_keys_x11_ask (CarpaceKeysX11 *keys, bool asked)
{
  if (asked == keys->asked || xcb_connection_has_error (keys->x) != 0)
    return;
  keys->asked = asked;
  if (asked)
    take_chord (keys);
  else
    {
      let_go (keys);
      release_all (keys);
      stop (&keys->soon);
    }
  xcb_flush (keys->x);
}

void
carpace_keys_x11_set_chord (CarpaceKeysX11 *keys, const CarpaceChord *chord)
{
  bool was_asked = keys->asked;
  carpace_keys_x11_ask (keys, false);
  keys->chord = *chord;
  keys->occupied_told = false;
  carpace_keys_x11_ask (keys, was_asked);
}

CarpaceKeysX11 *
carpace_keys_x11_new (const char *display, GMainContext *context, const CarpaceChord *chord,
                      CarpaceKeysListener listener, GError **error)
{
  CarpaceKeysX11 *keys = g_new0 (CarpaceKeysX11, 1);
  keys->chord = *chord;
  keys->listener = listener;
  keys->x = xcb_connect (display, NULL);
  keys->context = g_main_context_ref (context != NULL ? context : g_main_context_default ());
  if (xcb_connection_has_error (keys->x) != 0)
    {
      g_set_error_literal (error, G_IO_ERROR, G_IO_ERROR_NOT_SUPPORTED, "no X server answers");
      carpace_keys_x11_free (keys);
      return NULL;
    }
  keys->symbols = xcb_key_symbols_alloc (keys->x);
  read_keyboard (keys);
  keys->events = carpace_x11_events_new (keys->x, keys->context, "carpace keys", take_event, keys);
  return keys;
}

void
carpace_keys_x11_free (CarpaceKeysX11 *keys)
{
  if (keys == NULL)
    return;
  stop (&keys->timer);
  stop (&keys->soon);
  stop (&keys->events);
  g_clear_pointer (&keys->symbols, xcb_key_symbols_free);
  xcb_disconnect (keys->x);
  g_main_context_unref (keys->context);
  g_free (keys);
}

bool
carpace_keys_x11_can_have (const char *display, const CarpaceChord *chord)
{
  CarpaceKeysX11 *keys = carpace_keys_x11_new (display, NULL, chord, (CarpaceKeysListener) { 0 }, NULL);
  bool can = keys != NULL && grab_chord (keys);
  carpace_keys_x11_free (keys);
  return can;
}
