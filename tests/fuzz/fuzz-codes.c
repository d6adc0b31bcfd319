/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fuzz-codes.c: a list of players' codes: nothing but codes come out of it, or one line that says why not. */
#include <string.h>

#include "forms/codes-lines.h"
#include "target.h"

int
LLVMFuzzerTestOneInput (const uint8_t *data, size_t n)
{
  g_autofree char *fault = NULL;
  g_autoptr (GPtrArray) codes = carpace_codes_read ((const char *) data, n, &fault);

  g_assert_true ((codes == NULL) == (fault != NULL));
  if (codes == NULL)
    {
      g_assert_true (*fault != '\0' && g_utf8_validate (fault, -1, NULL) && strpbrk (fault, "\n\r\033") == NULL);
      return 0;
    }
  g_assert_true (codes->len > 0 && codes->len <= CARPACE_CODES);
  for (guint i = 0; i < codes->len; i++)
    {
      const char *code = codes->pdata[i];

      g_assert_true (strlen (code) <= CARPACE_CODE_LONGEST && g_ascii_isalnum (code[0]));
      g_assert_true (strspn (code, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_") == strlen (code));
    }
  return 0;
}
