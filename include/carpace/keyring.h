/* SPDX-License-Identifier: GPL-3.0-or-later */
/** keyring.h: the desktop's keyring, for the pass phrase of a person's key where they want it kept. */
#ifndef CARPACE_KEYRING_H
#define CARPACE_KEYRING_H

#include <stdbool.h>

typedef enum
{
  CARPACE_KEYRING_DONE,
  CARPACE_KEYRING_NOTHING, /**< none is kept for that key, or it was not let out */
  CARPACE_KEYRING_FAILED   /**< no keyring answered, or it would not keep it */
} CarpaceKeyringEnd;

/** An entry is found by @key, the short form of a public key. Each may wait for the person, where the keyring is locked. */
typedef struct
{
  /** Whether one can be had on this desktop. Nothing is started or unlocked for it. */
  bool (*is_there) (void);
  /** Keeps @phrase, in place of what was kept for the same key. @param label what the keyring's own windows show */
  CarpaceKeyringEnd (*keep) (const char *key, const char *label, const char *phrase);
  /** @param ret_phrase where DONE; g_free() it */
  CarpaceKeyringEnd (*find) (const char *key, char **ret_phrase);
  CarpaceKeyringEnd (*forget) (const char *key);
} CarpaceKeyring;

#endif
