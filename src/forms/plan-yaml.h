/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * plan-yaml.h: reads plan files by libfyaml.
 *
 * Files come from strangers. Before parsing: 256 KiB, UTF-8, no control bytes.
 * While parsing: 16 levels, no anchors, aliases, unknown tags or second
 * document; nothing is ever resolved. After it every node is looked at once.
 */
#ifndef CARPACE_PLAN_YAML_H
#define CARPACE_PLAN_YAML_H

#include "carpace/ports.h"

/** The reader; it has no state of its own. */
CarpacePlanReader carpace_plan_yaml (void);

#endif
