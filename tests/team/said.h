/* SPDX-License-Identifier: GPL-3.0-or-later */
/* said.h: what every unit test of a team includes. */
#ifndef CARPACE_TESTS_TEAM_SAID_H
#define CARPACE_TESTS_TEAM_SAID_H

#include <setjmp.h>
#include <stdarg.h>
#include <stddef.h>
#include <cmocka.h>
#include <glib.h>
#include <string.h>

#include "team/keys.h"

/* The bytes that @hex stands for. */
static inline GByteArray *
bytes_of (const char *hex)
{
  GByteArray *bytes = g_byte_array_new ();

  for (; hex[0] != '\0'; hex += 2)
    {
      uint8_t byte = (uint8_t) (g_ascii_xdigit_value (hex[0]) * 16 + g_ascii_xdigit_value (hex[1]));

      g_byte_array_append (bytes, &byte, 1);
    }
  return bytes;
}

/* A person whose secret is 32 times @byte: the same in each run. */
static inline CarpacePerson
person_of (uint8_t byte)
{
  uint8_t secret[CARPACE_PERSON_SECRET_BYTES];
  CarpacePerson person;

  memset (secret, byte, sizeof secret);
  carpace_person_of (secret, &person);
  return person;
}

static inline CarpaceSigner
device_of (uint8_t byte)
{
  uint8_t seed[CARPACE_KEY_BYTES];
  CarpaceSigner signer;

  memset (seed, byte, sizeof seed);
  carpace_signer_of (seed, &signer);
  return signer;
}

#endif
