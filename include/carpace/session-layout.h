/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * session-layout.h: how large a session is, for whoever holds one.
 *
 * The fields belong to src/core; everybody else reads a session through view.h.
 */
#ifndef CARPACE_SESSION_LAYOUT_H
#define CARPACE_SESSION_LAYOUT_H

#include "carpace/dose.h"

typedef struct CarpaceSession
{
  CarpaceHistory history;
} CarpaceSession;

#endif
