/* SPDX-License-Identifier: GPL-3.0-or-later */
/** qr-blocks.h: a QR code (ISO/IEC 18004) as text, two rows of it a line. */
#ifndef CARPACE_FORMS_QR_BLOCKS_H
#define CARPACE_FORMS_QR_BLOCKS_H

/** @text as a code with a margin of four; dark is drawn, for dark letters on light, or (@inverse) light is, for light
 * letters on dark. g_free() it; NULL where it is too long for one. */
char *carpace_qr_blocks (const char *text, int inverse);

#endif
