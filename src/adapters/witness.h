/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * witness.h: when the program died, told by one who saw it.
 *
 * A child process that sleeps until the program ends, however it ends, and
 * writes down the moment. It holds one pipe and nothing else, ignores the
 * signals that end a session, wakes for nothing, and never outlives the program
 * for longer than that one write. A power cut ends it too: then there is no record.
 */
#ifndef CARPACE_WITNESS_H
#define CARPACE_WITNESS_H

#include <stdbool.h>
#include <stdint.h>

/** Bytes of a boot's id, its end included. */
#define CARPACE_WITNESS_BOOT_BYTES 37

/** The name the process goes by: not the program's, which may be killed by name. */
#define CARPACE_WITNESS_NAME "moment-keeper"

/** Starts the witness. To be called before any thread is started (and so before
 * GTK and GLib are), once.
 * @param path where the moment is written, 0600, at once or not at all; its folder exists by then
 * @param boot_id of this boot
 * @return false where there is none: the program goes on without */
bool carpace_witness_start (const char *path, const char *boot_id);

/** Once, after carpace_witness_start(), which does not wait until the witness is there: this does.
 * @return false where there is none after all */
bool carpace_witness_settle (void);

/** The program ends well: nothing is written. Without a witness nothing happens. */
void carpace_witness_goodbye (void);

/** Reads the moment the program last died.
 * @param ret_boot_id the boot it was in
 * @param ret_boottime_ms ms since that boot (CLOCK_BOOTTIME)
 * @param ret_wall_ms ms since 1970-01-01T00:00:00Z
 * @return false, nothing touched, where there is no record or it is damaged */
bool carpace_witness_read (const char *path, char ret_boot_id[CARPACE_WITNESS_BOOT_BYTES], int64_t *ret_boottime_ms,
                           int64_t *ret_wall_ms);

/** Takes the record away, once it has been used. */
void carpace_witness_forget (const char *path);

#endif
