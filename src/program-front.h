/* SPDX-License-Identifier: GPL-3.0-or-later */
/** program-front.h: who tells which window is in front on this desktop. Part of main. */
#ifndef CARPACE_PROGRAM_FRONT_H
#define CARPACE_PROGRAM_FRONT_H

#include "carpace/desktop.h"
#include "carpace/ports.h"

/** Opens the best source that the desktop offers. @return which windows it tells of, CARPACE_WINDOWS_NONE where there is none */
CarpaceWindowsOffer carpace_program_open_front (CarpaceWindowListener listener, CarpaceFront *ret_front);

#endif
