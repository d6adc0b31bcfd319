/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * sharing.h: what a window for sharing shows, and what it asks. Each answer is what the command of the same name says.
 */
#ifndef CARPACE_SHARING_H
#define CARPACE_SHARING_H

#include "carpace/kept-phrase.h"
#include "carpace/team.h"

/** A grant, and how it is with it today. @return false: enough */
typedef bool (*CarpaceSharingGrant) (void *user, const CarpaceGrant *grant, CarpaceTeamFault holds);

/** Somebody who was accepted. @return false: enough */
typedef bool (*CarpaceSharingCard) (void *user, const CarpaceCard *card);

/** Whom to let read, and what. Texts are as they were typed. */
typedef struct
{
  const char *who;    /**< the beginning of a key that was accepted, or the file of a card */
  const char *words;  /**< the six words of that card; NULL: the key is accepted already */
  CarpaceGrantWhat what;
  const char *until;  /**< a date; "": until it is stopped */
  const char *phrase;
} CarpaceSharingAsk;

typedef struct
{
  void *self;
  /** What is to be known first: the folder, keys that are not there. g_free() it, as all texts here */
  char *(*head) (void *self);
  void (*grants) (void *self, CarpaceSharingGrant visit, void *user);
  void (*cards) (void *self, CarpaceSharingCard visit, void *user);
  /** @param ret_is whether the file is a card. @return whose it says it is, or what is wrong with it */
  char *(*card) (void *self, const char *path, bool *ret_is);
  /** @param ret_done whether it was. @return what is said of it */
  char *(*add) (void *self, const CarpaceSharingAsk *ask, bool *ret_done);
  /** @param who the beginning of a key */
  char *(*stop) (void *self, const char *who, const char *phrase, bool *ret_done);
  /** Whether there are keys to share by; NULL: there are */
  bool (*ready) (void *self);
  const CarpaceKeptPhrase *kept; /**< NULL: no keyring is offered */
} CarpaceSharingShown;

#endif
