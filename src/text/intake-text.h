/* SPDX-License-Identifier: GPL-3.0-or-later */
/** intake-text.h: what is wrong with a file whose records are to be taken in, in words. */
#ifndef CARPACE_TEXT_INTAKE_TEXT_H
#define CARPACE_TEXT_INTAKE_TEXT_H

/** What can be wrong with something that is to be taken in. */
typedef enum
{
  CARPACE_INTAKE_FINE,
  CARPACE_INTAKE_NOT_TEXT,     /**< no UTF-8, or control bytes in it */
  CARPACE_INTAKE_NOT_THE_FORM, /**< broken: no CSV, no JSON object */
  CARPACE_INTAKE_TOO_LONG,     /**< a line */
  CARPACE_INTAKE_TOO_DEEP,     /**< arrays or objects within each other */
  CARPACE_INTAKE_MORE,         /**< something after the object of the line */
  CARPACE_INTAKE_MISSING,      /**< the key (column) */
  CARPACE_INTAKE_TWICE,        /**< the key (column) */
  CARPACE_INTAKE_UNKNOWN_KIND,
  CARPACE_INTAKE_NOT_A_WORD,   /**< none of the key's words */
  CARPACE_INTAKE_NOT_A_NUMBER,
  CARPACE_INTAKE_OUT_OF_RANGE,
  CARPACE_INTAKE_NOT_A_TIME,
  CARPACE_INTAKE_NOT_A_DATE,
  CARPACE_INTAKE_NOTE_TOO_LONG,
  CARPACE_INTAKE_NEWER,        /**< written by a later Carpace */
  CARPACE_INTAKE_NO_VERSION,   /**< one that never was */
  CARPACE_INTAKE_NOT_AN_IDENTITY,
  CARPACE_INTAKE_TWO_DIARIES,  /**< lines of more than one diary */
  CARPACE_INTAKE_NOT_KEPT      /**< the diary could not take it; it has told why */
} CarpaceIntakeFault;

/** One sentence on @fault; @key and @value may be NULL. g_free() it. */
char *carpace_text_intake_fault (CarpaceIntakeFault fault, const char *key, const char *value);

#endif
