/* SPDX-License-Identifier: GPL-3.0-or-later */
/** kept-phrase.h: the pass phrase of the own key in the desktop's keyring, as windows offer it. What is said is the command's, `key keep`. */
#ifndef CARPACE_KEPT_PHRASE_H
#define CARPACE_KEPT_PHRASE_H

#include <stdbool.h>

typedef struct
{
  void *self;
  bool (*can) (void *self);     /**< whether there is a keyring to keep it */
  bool (*is_kept) (void *self); /**< whether it is there, as far as is known: whatever asks for a pass phrase takes "" then */
  bool (*lacked) (void *self);  /**< whether what was asked last needed one that the keyring did not give */
  /** Keeps @phrase if it opens the key. @return what is said of it; g_free() it, as that of forget */
  char *(*keep) (void *self, const char *phrase, bool *ret_done);
  char *(*forget) (void *self, bool *ret_done);
} CarpaceKeptPhrase;

#endif
