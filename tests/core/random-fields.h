/* SPDX-License-Identifier: GPL-3.0-or-later */
/* random-fields.h: a value in a field's range, its ends more often. */
#ifndef CARPACE_TEST_RANDOM_FIELDS_H
#define CARPACE_TEST_RANDOM_FIELDS_H

#include "carpace/fields.h"
#include "random.h"

static inline int64_t
random_value (Random *random, const CarpaceField *field)
{
  uint64_t room = (uint64_t) field->most - (uint64_t) field->least;

  if (field->type == CARPACE_FIELD_DAY)
    return random_whole (random, 0, 40000); /* years that a date can be written of */
  if (random_whole (random, 0, 7) == 0)
    return random_whole (random, 0, 1) ? field->least : field->most;
  return field->least + (int64_t) (random_bits (random) % (room + 1));
}

/* Sets each of @n fields of @value. */
static inline void
random_fields (Random *random, const CarpaceField *field, int32_t n, void *value)
{
  for (int32_t i = 0; i < n; i++)
    carpace_field_set (&field[i], value, random_value (random, &field[i]));
}

#endif
