/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "forms/qr-blocks.h"

#include <glib.h>
#include <qrencode.h>
#include <stdbool.h>

#define MARGIN 4 /* the standard's quiet zone */

static bool
is_dark (const QRcode *code, int x, int y)
{
  return x >= 0 && y >= 0 && x < code->width && y < code->width && (code->data[y * code->width + x] & 1) != 0;
}

char *
carpace_qr_blocks (const char *text, int inverse)
{
  static const char *const blocks[] = { " ", "\u2580", "\u2584", "\u2588" }; /* none, upper, lower, both */
  QRcode *code = QRcode_encodeString (text, 0, QR_ECLEVEL_M, QR_MODE_8, 1);
  GString *out;

  if (code == NULL)
    return NULL;
  out = g_string_new (NULL);
  for (int y = -MARGIN; y < code->width + MARGIN; y += 2)
    {
      for (int x = -MARGIN; x < code->width + MARGIN; x++)
        {
          bool upper = is_dark (code, x, y) != (inverse != 0), lower = is_dark (code, x, y + 1) != (inverse != 0);

          g_string_append (out, blocks[upper + 2 * lower]);
        }
      g_string_append_c (out, '\n');
    }
  QRcode_free (code);
  return g_string_free (out, FALSE);
}
