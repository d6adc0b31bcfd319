/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * format-json.h: the diary as JSON, one object a line.
 *
 * The first line is of the kind `diary` and tells the form's version; then the
 * records, then what is about days. Written by text/json.h, read by json-glib
 * behind guards of length and depth: it falls on deep nesting.
 */
#ifndef CARPACE_FORMAT_JSON_H
#define CARPACE_FORMAT_JSON_H

#include "carpace/diary.h"

/** Version of the form that is written; later ones are refused. */
#define CARPACE_FORMAT_JSON_VERSION 1

extern const CarpaceDiaryFormat carpace_format_json;

#endif
