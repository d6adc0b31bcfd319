/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * keys-x11.h: answers from the keyboard, also inside a client that holds the pointer.
 *
 * While something can be answered, one chord is grabbed on the root window; pressed,
 * it arms the card: for 8 s a digit answers it, as does the key right of the last
 * digit (on the keypad: the key right of its 0), which is 10, and Escape puts the
 * card away. At any other time nothing is grabbed.
 */
#ifndef CARPACE_KEYS_X11_H
#define CARPACE_KEYS_X11_H

#include <glib.h>
#include <stdbool.h>
#include <stdint.h>

/** The chord where the player has chosen none. */
#define CARPACE_CHORD_DEFAULT "Ctrl+Alt+H"

/** How long the card stays armed, ms. */
#define CARPACE_KEYS_ARMED_MS 8000

/** Keys held, and one more. */
typedef struct
{
  bool ctrl, alt, shift, super;
  uint32_t keysym; /**< of X11: a letter in lower case, a digit, F1 to F12 */
} CarpaceChord;

/** Reads "Ctrl+Alt+H": one or more of Ctrl, Alt, Shift, Super (Shift alone will
 * not do), then a letter, a digit or F1 to F12; capitals do not matter.
 * @return false, *ret_chord untouched, where @text is anything else */
bool carpace_chord_read (const char *text, CarpaceChord *ret_chord);

/** Hears of the keys, in the context given at the start. */
typedef struct
{
  void *self;
  /** The card is armed, or no longer. */
  void (*armed) (void *self, bool armed);
  /** A key answered: 0 to 10. Told once it is armed no longer. */
  void (*digit) (void *self, int32_t digit);
  /** Escape, within the same time. */
  void (*put_away) (void *self);
  /** Another program has the chord; told once for each chord. */
  void (*occupied) (void *self);
} CarpaceKeysListener;

typedef struct CarpaceKeysX11 CarpaceKeysX11;

/** @param display as DISPLAY, NULL for the environment's
 * @return NULL, and one line in *error, where there is no X server */
CarpaceKeysX11 *carpace_keys_x11_new (const char *display, GMainContext *context, const CarpaceChord *chord,
                                      CarpaceKeysListener listener, GError **error);

/** Lets go of everything. NULL is fine. */
void carpace_keys_x11_free (CarpaceKeysX11 *keys);

/** Another chord from now on. */
void carpace_keys_x11_set_chord (CarpaceKeysX11 *keys, const CarpaceChord *chord);

/** Whether something can be answered: grabs the chord, or lets go of all. */
void carpace_keys_x11_ask (CarpaceKeysX11 *keys, bool asked);

/** Arms the card as the chord would (a shortcut of the desktop's own). No
 * effect while nothing can be answered. */
void carpace_keys_x11_arm (CarpaceKeysX11 *keys);

/** Whether @chord can be had just now: it is grabbed and let go at once.
 * @return false, too, where there is no X server */
bool carpace_keys_x11_can_have (const char *display, const CarpaceChord *chord);

#endif
