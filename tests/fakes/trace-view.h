/* SPDX-License-Identifier: GPL-3.0-or-later */
/* trace-view.h: a view as a line of a trace. */
#ifndef CARPACE_TRACE_VIEW_H
#define CARPACE_TRACE_VIEW_H

#include "carpace/view.h"

#define CARPACE_TRACE_VIEW_BYTES 1024

/* Minutes of other input, where they are known, are a second more than they are:
 * so that none is told from not known. */
void carpace_trace_view (const CarpaceView *view, char *ret_line, size_t size);

#endif
