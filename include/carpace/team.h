/* SPDX-License-Identifier: GPL-3.0-or-later */
/**
 * team.h: what goes between a player and those who are let read: keys, grants, hand-outs, bundles, notes.
 *
 * Each kind of record is one struct here and one table of fields (team_fields()); writing, reading and showing walk
 * the table. A record that goes out is signed (src/team/record.h says how it lies in a file).
 */
#ifndef CARPACE_TEAM_H
#define CARPACE_TEAM_H

#include "carpace/fields.h"

/** Bytes of a public key, and of a hash. */
#define CARPACE_KEY_BYTES 32

/** A public key (Ed25519 for signing, X25519 for sealing), or a hash (BLAKE2b, 256 bits). All zero: none. */
typedef struct
{
  uint8_t byte[CARPACE_KEY_BYTES];
} CarpaceKey;

/** Whether it is one. */
bool carpace_key_is_one (const CarpaceKey *key);
bool carpace_key_equal (const CarpaceKey *a, const CarpaceKey *b);

/** Of keys (CarpaceKey) in a hash table: a number of its own, mostly, and whether both are the same. */
unsigned carpace_key_hash (const void *key);
int carpace_key_same (const void *a, const void *b);

/** Bytes of the short form of a key, in names of files: 16 hexadecimal digits and the end. It finds, it proves nothing. */
#define CARPACE_KEY_SHORT_BYTES 17
void carpace_key_short (const CarpaceKey *key, char ret_text[CARPACE_KEY_SHORT_BYTES]);

/** Who somebody is in a team. */
typedef enum { CARPACE_ROLE_PLAYER, CARPACE_ROLE_COACH, CARPACE_ROLE_CLINICIAN, CARPACE_ROLE_GUARDIAN, CARPACE_N_ROLES } CarpaceRole;

/** What a grant lets its reader read. */
typedef enum
{
  CARPACE_GRANT_NONE, /**< nothing (any more): it was withdrawn */
  CARPACE_GRANT_LOAD, /**< weeks of practice: for a coach */
  CARPACE_GRANT_HAND, /**< ratings, mornings, sites, cautions, decisions, measures: for a clinician */
  CARPACE_GRANT_ALL,  /**< both */
  CARPACE_N_GRANT_WHATS
} CarpaceGrantWhat;

/** The two kinds of bundles. */
typedef enum { CARPACE_BUNDLE_LOAD, CARPACE_BUNDLE_HAND, CARPACE_N_BUNDLES } CarpaceBundleKind;

/** Whether a grant of @what covers bundles of @kind. */
bool carpace_grant_covers (CarpaceGrantWhat what, CarpaceBundleKind kind);

/** Bytes of a name, its end included; of a record's bytes at most. */
#define CARPACE_TEAM_NAME_BYTES 65
#define CARPACE_TEAM_READERS 64
#define CARPACE_TEAM_SEALED_KEY 80
#define CARPACE_TEAM_CONTENT_MOST (4 * 1024 * 1024)
/** What a file of a team can be at most. */
#define CARPACE_TEAM_FILE_MOST (CARPACE_TEAM_CONTENT_MOST + 65536)

/** Bytes of a record: those of what was read, not a copy. */
typedef struct
{
  const uint8_t *byte;
  size_t n;
} CarpaceTeamBytes;

/** Who somebody is: the public keys, signed by the first of them. */
typedef struct
{
  char name[CARPACE_TEAM_NAME_BYTES]; /**< a code or a name, as they call themselves */
  CarpaceRole role;
  CarpaceKey sign, seal;
  int64_t made_s;                     /**< since 1970-01-01T00:00:00Z, as all times here */
} CarpaceCard;

/** A person's word that a device signs for them: daily bundles, without asking. */
typedef struct
{
  CarpaceKey person, device;
  int64_t made_s;
} CarpaceDevice;

/** A player's word that somebody may read. The one with the highest number counts. */
typedef struct
{
  CarpaceKey player, reader, reader_seal;
  char reader_name[CARPACE_TEAM_NAME_BYTES];
  CarpaceRole reader_role;
  CarpaceGrantWhat what;
  int32_t since, until;   /**< dates (CarpaceDay), both included; until 0: without an end */
  int64_t number;         /**< of this player to this reader, from 1 */
  int64_t made_s;
  bool under_age;         /**< counts with the guardian's signature only */
  CarpaceKey guardian;    /**< none where it needs none */
  int32_t wording;        /**< which version of the sentences was agreed to */
} CarpaceGrant;

/** A plan that was signed and given. */
typedef struct
{
  CarpaceKey giver;
  char giver_name[CARPACE_TEAM_NAME_BYTES];
  CarpaceRole giver_role;
  CarpaceKey player;      /**< to whom; none: to anybody */
  CarpaceKey plan;        /**< hash of the plan's text */
  int64_t made_s;
} CarpaceHandOut;

/** One bundle: sealed, numbered, chained. */
typedef struct
{
  CarpaceKey player;
  CarpaceBundleKind kind;
  int64_t number;           /**< of this device and kind, from 1 */
  CarpaceKey before;        /**< hash of the file of the one before; none for the first */
  int64_t made_s;
  CarpaceTeamBytes device;  /**< the person's word on the device that signed, a file by itself */
  CarpaceTeamBytes readers; /**< for each reader the file's key, sealed: CARPACE_TEAM_SEALED_KEY bytes each */
  CarpaceTeamBytes content; /**< rows, sealed with that key */
} CarpaceBundle;

/** A player asks that what was read until then be erased. */
typedef struct
{
  CarpaceKey player;
  int64_t made_s;
} CarpaceErasure;

/** Another key in place of an own one, signed by both. */
typedef struct
{
  CarpaceKey before, sign, seal;
  int64_t made_s;
} CarpaceHeir;

/** Computers of one player that a note is sealed to at most; bytes of its sealed text, at most. */
#define CARPACE_TEAM_NOTE_DEVICES 8
#define CARPACE_TEAM_NOTE_SEALED 4096

/** A reader's few words to a player: sealed to the player's computers, signed by the reader. */
typedef struct
{
  CarpaceKey from, player;
  int64_t made_s;           /**< a later one takes the place of one that is there */
  CarpaceTeamBytes readers; /**< as a bundle's */
  CarpaceTeamBytes content; /**< a CarpaceNoteText, sealed with that key */
} CarpaceNote;

/** Characters of a note, and bytes of its text, the end included. */
#define CARPACE_TEAM_NOTE_CHARACTERS 500
#define CARPACE_TEAM_NOTE_BYTES (4 * CARPACE_TEAM_NOTE_CHARACTERS + 1)

/** What is sealed in one. By whom stands inside, too: nobody signs another's words as their own. */
typedef struct
{
  CarpaceKey from;
  char text[CARPACE_TEAM_NOTE_BYTES];
} CarpaceNoteText;

/** A person's secret, locked by a pass phrase. Stays with its owner; unsigned. */
typedef struct
{
  int32_t passes;          /**< Argon2id */
  int64_t memory_bytes;
  CarpaceTeamBytes salt, nonce, box;
} CarpaceLocked;

/** How far a device's bundles of a kind have come. Stays with the device; unsigned. */
typedef struct
{
  CarpaceBundleKind kind;
  int64_t number;
  CarpaceKey last;         /**< hash of that one's file */
  int64_t made_s;
} CarpaceChain;

/** The head of a load bundle. */
typedef struct
{
  char plan_name[CARPACE_TEAM_NAME_BYTES];
  int32_t plan_version;    /**< 0 where no plan that was given is in use */
  CarpaceKey plan;         /**< hash of its text, as in a hand-out */
  int64_t in_force_s;      /**< since when; 0 where it is not known */
  bool at_ceiling;         /**< the dose is at the most that the plan allows */
} CarpaceLoadHead;

/** A week of a load bundle: sums only. A row a day would tell a bad morning. */
typedef struct
{
  int32_t monday;          /**< date */
  int64_t planned_ms, done_ms;
  int32_t days, rests;     /**< days practised; rests taken */
} CarpaceLoadWeek;

/** One thing recorded, of a hand bundle. */
typedef struct
{
  int64_t id;              /**< of the record in the diary of this device */
  int32_t day;             /**< practice day */
  int64_t elapsed_ms, wall_ms;
  int32_t offset_s;
  int32_t kind;            /**< CarpaceEntryKind */
  CarpaceTeamBytes values; /**< of its fields, in the order of carpace_entry_fields() */
} CarpaceHandRow;

/** Kinds of records. The numbers stand in files and stay as they are. */
typedef enum
{
  CARPACE_TEAM_CARD,
  CARPACE_TEAM_DEVICE,
  CARPACE_TEAM_GRANT,
  CARPACE_TEAM_HAND_OUT,
  CARPACE_TEAM_BUNDLE,
  CARPACE_TEAM_ERASURE,
  CARPACE_TEAM_HEIR,
  CARPACE_TEAM_LOCKED,
  CARPACE_TEAM_CHAIN,
  CARPACE_TEAM_LOAD_HEAD,
  CARPACE_TEAM_LOAD_WEEK,
  CARPACE_TEAM_HAND_ROW,
  CARPACE_TEAM_NOTE,
  CARPACE_TEAM_NOTE_TEXT,
  CARPACE_N_TEAM_KINDS
} CarpaceTeamKind;

/** How a field lies in a record. */
typedef enum
{
  CARPACE_TEAM_NUMBER, /**< a whole number, CarpaceField's own way */
  CARPACE_TEAM_KEY,    /**< CARPACE_KEY_BYTES bytes */
  CARPACE_TEAM_TEXT,   /**< UTF-8 without control characters */
  CARPACE_TEAM_BYTES   /**< any */
} CarpaceTeamShape;

/** One field. */
typedef struct
{
  CarpaceField field;  /**< name and place; of a number also its range */
  CarpaceTeamShape shape;
  size_t most;         /**< TEXT, BYTES: bytes */
} CarpaceTeamField;

/** The fields of @kind, in the order in which they are written; *ret_size (may be NULL): of the struct. */
const CarpaceTeamField *carpace_team_fields (CarpaceTeamKind kind, int32_t *ret_n, size_t *ret_size);

/** What is wrong with something that came from somewhere. */
typedef enum
{
  CARPACE_TEAM_FINE,
  CARPACE_TEAM_FOREIGN,        /**< no file of a team */
  CARPACE_TEAM_NEWER,          /**< made by a newer Carpace */
  CARPACE_TEAM_OTHER_KIND,     /**< of a team, but not what was looked for */
  CARPACE_TEAM_TOO_LARGE,
  CARPACE_TEAM_CUT,            /**< it ends too early */
  CARPACE_TEAM_DAMAGED,        /**< it does not read as what it says it is */
  CARPACE_TEAM_FORGED,         /**< a signature does not fit */
  CARPACE_TEAM_OTHER_SIGNER,   /**< signed, but not by whom it says */
  CARPACE_TEAM_UNKNOWN,        /**< by somebody whose key was not accepted */
  CARPACE_TEAM_NOT_GRANTED,    /**< no grant lets this reader read it */
  CARPACE_TEAM_NOT_YET,        /**< the grant begins later */
  CARPACE_TEAM_ENDED,          /**< the grant has ended */
  CARPACE_TEAM_WITHDRAWN,
  CARPACE_TEAM_UNGUARDED,      /**< the guardian has not signed */
  CARPACE_TEAM_ROLLED_BACK,    /**< an older one in place of one that was seen */
  CARPACE_TEAM_FORKED,         /**< it does not follow on the one before */
  CARPACE_TEAM_NOT_FOR_YOU,    /**< sealed to others */
  CARPACE_TEAM_AHEAD,          /**< made in the future: one of the clocks is wrong */
  CARPACE_TEAM_ERASED,         /**< from before an erasure */
  CARPACE_TEAM_WRONG_PHRASE,
  CARPACE_TEAM_NO_MEMORY,      /**< for the pass phrase */
  CARPACE_TEAM_LOOSE,          /**< a secret that others can read, or that is somebody else's */
  CARPACE_TEAM_NO_FILE,        /**< there is none of that name */
  CARPACE_TEAM_NOT_ORDINARY,   /**< a link, a folder, a device, a pipe */
  CARPACE_TEAM_FAILED,         /**< it cannot be read; errno tells why */
  CARPACE_N_TEAM_FAULTS
} CarpaceTeamFault;

#endif
