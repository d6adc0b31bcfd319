/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "team/grant.h"

#include "carpace/day.h"

GByteArray *
carpace_grant_write (const CarpacePerson *player, const CarpaceGrant *grant)
{
  return carpace_signed_write (CARPACE_TEAM_GRANT, grant, &player->signer, 1);
}

CarpaceTeamFault
carpace_grant_read (const uint8_t *from, size_t n, CarpaceGrant *ret_grant, bool *ret_guarded)
{
  CarpaceSignatures signatures;
  CarpaceTeamFault fault = carpace_signed_read (CARPACE_TEAM_GRANT, from, n, ret_grant, &signatures);
  bool guarded;

  if (fault != CARPACE_TEAM_FINE)
    return fault;
  guarded = carpace_key_is_one (&ret_grant->guardian) && !carpace_key_equal (&ret_grant->guardian, &ret_grant->player)
            && carpace_signed_by (&signatures, &ret_grant->guardian);
  if (!carpace_signed_by (&signatures, &ret_grant->player) || signatures.n != (guarded ? 2 : 1))
    return CARPACE_TEAM_OTHER_SIGNER;
  *ret_guarded = guarded;
  return CARPACE_TEAM_FINE;
}

GByteArray *
carpace_grant_countersign (const uint8_t *from, size_t n, const CarpacePerson *guardian)
{
  CarpaceGrant grant;
  bool guarded;

  if (carpace_grant_read (from, n, &grant, &guarded) != CARPACE_TEAM_FINE || guarded
      || !carpace_key_equal (&grant.guardian, &guardian->signer.key))
    return NULL;
  return carpace_signed_add (CARPACE_TEAM_GRANT, from, n, &guardian->signer);
}

int32_t
carpace_grant_day (int64_t now_s)
{
  return carpace_day_of ((CarpaceInstant) { .wall_ms = now_s * 1000 }, 0);
}

CarpaceTeamFault
carpace_grant_holds (const CarpaceGrant *grant, bool guarded, int64_t now_s, int32_t today)
{
  int32_t day = carpace_grant_day (now_s);

  if (grant->what == CARPACE_GRANT_NONE)
    return CARPACE_TEAM_WITHDRAWN;
  if (grant->under_age && !guarded)
    return CARPACE_TEAM_UNGUARDED;
  if (grant->until != 0 && MAX (day, today) > grant->until)
    return CARPACE_TEAM_ENDED;
  return MIN (day, today) < grant->since ? CARPACE_TEAM_NOT_YET : CARPACE_TEAM_FINE;
}
