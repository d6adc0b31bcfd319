/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * keys-portal.h: keys by the desktop's portal (org.freedesktop.portal.GlobalShortcuts, version 1).
 *
 * All are asked for at once, in one dialogue of the desktop's, and only when the player sets them up: each question
 * may be a dialogue. At later starts only a session is made, and what was granted before is looked up.
 */
#ifndef CARPACE_KEYS_PORTAL_H
#define CARPACE_KEYS_PORTAL_H

#include <gio/gio.h>
#include <stdbool.h>

typedef enum
{
  CARPACE_KEYS_PORTAL_ABSENT, /**< no portal, or one without shortcuts; it may come */
  CARPACE_KEYS_PORTAL_UNSET,  /**< none has been granted yet: carpace_keys_portal_ask() */
  CARPACE_KEYS_PORTAL_DENIED, /**< the player, or the desktop, said no */
  CARPACE_KEYS_PORTAL_BOUND,  /**< they are told of */
  CARPACE_N_KEYS_PORTAL_STATES
} CarpaceKeysPortalState;

/** Hears of it, in the default context; lets go of the portal not from within. */
typedef struct
{
  void *self;
  void (*pressed) (void *self, const char *id); /**< of a row */
  void (*state) (void *self, CarpaceKeysPortalState state); /**< told when it is another, and after each answer to a question */
} CarpaceKeysPortalListener;

/** One shortcut. */
typedef struct
{
  const char *id, *name;
  const char *keys; /**< as the XDG shortcuts specification writes them */
} CarpaceKeysPortalRow;

typedef struct CarpaceKeysPortal CarpaceKeysPortal;

/** @param rows and what they name outlive it */
CarpaceKeysPortal *carpace_keys_portal_new (GDBusConnection *bus, const CarpaceKeysPortalRow *rows, int n_rows,
                                            CarpaceKeysPortalListener listener);

/** NULL is fine. The keys are told of no more. */
void carpace_keys_portal_free (CarpaceKeysPortal *portal);

/** Asks for all of them: now, or as soon as there is a portal. Once at a time. */
void carpace_keys_portal_ask (CarpaceKeysPortal *portal);

/** Whether the portal here has shortcuts. It may be started to be asked; 2 s at most. */
bool carpace_keys_portal_is_here (GDBusConnection *bus);

#endif
