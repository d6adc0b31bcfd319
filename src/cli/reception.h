/* SPDX-License-Identifier: GPL-3.0-or-later */
/** reception.h: how a plan fares with every modelled player, in one table. */
#ifndef CARPACE_CLI_RECEPTION_H
#define CARPACE_CLI_RECEPTION_H

#include "app/players.h"
#include "cli/cli.h"

/** What is rehearsed. */
typedef struct
{
  const CarpacePlan *plan;
  int32_t days;
  uint64_t seed;      /**< of each player's first season; the next have the next ones */
  int32_t seasons;    /**< of each player */
  int hand;           /**< the one hand, -1: all */
  bool json;
} CarpaceReception;

/** Rehearses and prints. @return an exit status */
int carpace_reception (CarpaceCli *cli, const CarpaceReception *reception);

#endif
