/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * zones-glib.h: offsets of named zones, for rehearsals.
 */
#ifndef CARPACE_ZONES_GLIB_H
#define CARPACE_ZONES_GLIB_H

#include "carpace/ports.h"

/** Local time less UTC in the zone @name ("Europe/Berlin", a name of the IANA
 * time zone database) at @wall_ms, ms since 1970-01-01T00:00:00Z, in s.
 * @return false, *ret_offset_s untouched, where the machine knows no such zone */
bool carpace_zone_offset (const char *name, int64_t wall_ms, int32_t *ret_offset_s);

/** The zones this machine knows, as a port. */
CarpaceZones carpace_zones_glib_port (void);

#endif
