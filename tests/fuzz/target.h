/* SPDX-License-Identifier: GPL-3.0-or-later */
/** target.h: what a fuzz target is. */
#ifndef CARPACE_FUZZ_TARGET_H
#define CARPACE_FUZZ_TARGET_H

#include <stddef.h>
#include <stdint.h>

/** Takes any bytes and gives them to one parser. @return 0 */
int LLVMFuzzerTestOneInput (const uint8_t *data, size_t n);

#endif
