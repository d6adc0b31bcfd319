# SPDX-License-Identifier: GPL-3.0-or-later
# bash completion for carpace(1): the program reads its own table.
_carpace ()
{
  local word

  COMPREPLY=()
  while IFS=$'\t' read -r word _; do
    case $word in
      /) compopt -o default ;; # a file fits, too
      *) COMPREPLY+=("$word") ;;
    esac
  done < <(carpace --complete "${COMP_WORDS[@]:1:COMP_CWORD}" 2>/dev/null)
  case ${COMPREPLY[*]} in
    *[=,]) compopt -o nospace ;;
  esac
}
complete -F _carpace carpace
