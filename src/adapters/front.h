/* SPDX-License-Identifier: GPL-3.0-or-later */
/** front.h: what whoever tells of the window in front has in common. */
#ifndef CARPACE_ADAPTERS_FRONT_H
#define CARPACE_ADAPTERS_FRONT_H

#include <stdint.h>

/** The name of the file that the process @pid runs, NULL where it is 0 or cannot be known. To be freed.
 * One in a sandbox may give its number inside: outside that is mostly none's whose file can be read. */
char *carpace_front_program (uint32_t pid);

#endif
