/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * diary-json.h: the diary as JSON, one object a line.
 *
 * The first line is of the kind `diary` and tells the form's version and whose
 * diary it is; then the records, then what is about days, then, where the whole
 * diary goes out, what the day under way is gone on with from. Written by forms/json.h, read by json-glib
 * behind guards of length and depth: it falls on deep nesting.
 */
#ifndef CARPACE_FORMS_DIARY_JSON_H
#define CARPACE_FORMS_DIARY_JSON_H

#include "carpace/diary.h"

/** Version of the form that is written; later ones are refused. Version 1 did not
 * say whose diary it is, and had no lines about the day under way. */
#define CARPACE_FORMAT_JSON_VERSION 2

extern const CarpaceDiaryFormat carpace_format_json;

#endif
