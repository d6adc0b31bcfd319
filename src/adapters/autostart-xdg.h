/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * autostart-xdg.h: the program starts with the login session, or does not any more.
 *
 * By a desktop file in the user's autostart folder (Desktop Application Autostart Specification 0.5). One that was
 * not written here is the user's and stays as it is; in one that was, only the program's path is ever changed: what
 * a desktop's own switch wrote into it holds.
 *
 * In a sandbox that folder is not the desktop's: org.freedesktop.portal.Background is asked, once for each change;
 * the file in the sandbox's own folder is the record of what was granted.
 */
#ifndef CARPACE_AUTOSTART_XDG_H
#define CARPACE_AUTOSTART_XDG_H

#include <stdbool.h>

/** What it works with. */
typedef struct
{
  const char *program; /**< its path; in a sandbox its name there */
  bool sandboxed;
  void (*told) (const char *message); /**< hears why it did not work, one translated sentence; perhaps later */
} CarpaceAutostart;

/** Whether this program runs in a sandbox that has portals: there is /.flatpak-info. */
bool carpace_autostart_is_sandboxed (void);

/** Starts with the session from now on, or does not. Where it is so already nothing is done. */
void carpace_autostart_set (const CarpaceAutostart *autostart, bool on);

/** @return NULL where what stands in the folder goes by @on; else a translated sentence on it, to be freed */
char *carpace_autostart_fault (bool on);

#endif
