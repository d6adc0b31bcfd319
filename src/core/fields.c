/* SPDX-License-Identifier: GPL-3.0-or-later */
/* fields.c: fields of an entry or event, read and set by their table. */
#include "carpace/fields.h"

#include <string.h>

int64_t
carpace_field_get (const CarpaceField *field, const void *value)
{
  const char *from = (const char *) value + field->offset;
  int64_t wide;
  int32_t narrow;
  bool flag;

  switch (field->bytes)
    {
    case sizeof wide:
      memcpy (&wide, from, sizeof wide);
      return wide;
    case sizeof narrow:
      memcpy (&narrow, from, sizeof narrow);
      return narrow;
    default:
      memcpy (&flag, from, sizeof flag);
      return flag;
    }
}

bool
carpace_field_set (const CarpaceField *field, void *value, int64_t number)
{
  char *to = (char *) value + field->offset;
  int32_t narrow = (int32_t) number;
  bool flag = number != 0;

  if (number < field->least || number > field->most)
    return false;
  switch (field->bytes)
    {
    case sizeof number:
      memcpy (to, &number, sizeof number);
      break;
    case sizeof narrow:
      memcpy (to, &narrow, sizeof narrow);
      break;
    default:
      memcpy (to, &flag, sizeof flag);
    }
  return true;
}

void
carpace_fields_init (const CarpaceField *field, int32_t n, void *value)
{
  for (int32_t i = 0; i < n; i++)
    carpace_field_set (&field[i], value, field[i].type == CARPACE_FIELD_MAYBE ? -1 : 0);
}

bool
carpace_fields_equal (const CarpaceField *field, int32_t n, const void *a, const void *b)
{
  for (int32_t i = 0; i < n; i++)
    if (carpace_field_get (&field[i], a) != carpace_field_get (&field[i], b))
      return false;
  return true;
}

const CarpaceField *
carpace_field_named (const CarpaceField *field, int32_t n, const char *name)
{
  for (int32_t i = 0; i < n; i++)
    if (strcmp (field[i].name, name) == 0)
      return &field[i];
  return NULL;
}
