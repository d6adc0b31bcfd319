/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * suspend-logind.h: suspend and wake, as org.freedesktop.login1 tells them.
 *
 * A delay lock, where it can be had, makes the machine wait until SUSPEND has
 * been dealt with. Without logind nothing is ever told.
 */
#ifndef CARPACE_SUSPEND_LOGIND_H
#define CARPACE_SUSPEND_LOGIND_H

#include <glib.h>

#include "carpace/ports.h"

typedef struct CarpaceSuspendLogind CarpaceSuspendLogind;

/** Begins to listen on the system bus; blocks on nothing.
 * @param who program's name, @param why what is done before a suspend, in
 *   words: both shown by `systemd-inhibit --list`; copied
 * @param tell hears SUSPEND and WAKE in the thread's default context */
CarpaceSuspendLogind *carpace_suspend_logind_new (const char *who, const char *why, CarpaceTell tell);

/** NULL is fine. Nothing is told after it. */
void carpace_suspend_logind_free (CarpaceSuspendLogind *suspend);

/** Whether the delay lock is held just now. */
bool carpace_suspend_logind_has_lock (const CarpaceSuspendLogind *suspend);

#endif
