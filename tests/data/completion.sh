#!/bin/bash
# SPDX-License-Identifier: GPL-3.0-or-later
# completion.sh FILE: what bash offers for half a line, each case in its own words.
. "$1"
faults=0

carpace () { printf '  two-halves  Two halves\n* mine        Mine\n'; }

# case EXPECTED WORD...: the last word is being typed
case_of () {
  local expected=$1; shift
  COMP_WORDS=("$@") COMP_CWORD=$(($# - 1)) COMPREPLY=()
  _carpace
  if [ "${COMPREPLY[*]}" != "$expected" ]; then
    echo "$*: '${COMPREPLY[*]}', not '$expected'"
    faults=$((faults + 1))
  fi
}

case_of 'start status' carpace sta
case_of 'palm-side' carpace rate 2 pa
case_of 'steady sensitive silent' carpace rehearse two-halves --player s
case_of 'two-halves' carpace rehearse tw
case_of 'mine' carpace plan use m
case_of 'on off' carpace on-air ''
case_of 'numb night-pain not-better none' carpace caution n
case_of '' carpace quit x
exit $((faults > 0))
