# SPDX-License-Identifier: GPL-3.0-or-later
# bash completion for carpace(1)

_carpace_commands='start end pause continue rest after-run play-on rate morning caution on-air quit status plan rehearse
  diary why report calendar export import backup erase calc desktop --help --version'
_carpace_sites='palm-side little-finger-side thumb-side back-of-forearm fingers elbow shoulder neck other-hand'
_carpace_signs='injury deformed cannot-move cold-or-pale hot-and-feverish numb night-pain dropping-things weak locking
  swollen not-better'

# The words of the first column of `carpace plan list`.
_carpace_plans ()
{
  carpace plan list 2>/dev/null | sed 's/^[* ]*//; s/[[:space:]].*//'
}

_carpace_of_option ()
{
  case $1 in
    --format) printf '%s' 'text json csv fhir pdf png' ;;
    --player) printf '%s' 'steady sensitive plays-on silent' ;;
    --into) printf '%s' 'whole halves quarters' ;;
    --for) printf '%s' 'clinician coach' ;;
    --paper) printf '%s' 'a4 letter' ;;
    --region) printf '%s' 'hand elbow shoulder' ;;
    --now) printf '%s' '0 1 2 3 4 5 6 7 8 9 10' ;;
    *) return 1 ;;
  esac
}

_carpace_of_command ()
{
  case $1 in
    start) printf '%s' '--match' ;;
    rate) [ "$2" = 2 ] && printf '%s' '0 1 2 3 4 5 6 7 8 9 10' || printf '%s' "$_carpace_sites" ;;
    morning) printf '%s' '0 1 2 3 4 5 6 7 8 9 10 less usual more --now --other-load --pain-relief' ;;
    caution) printf '%s' "$_carpace_signs none seen gone" ;;
    on-air) printf '%s' 'on off' ;;
    status) printf '%s' '--format --follow' ;;
    plan) [ "$2" = 2 ] && printf '%s' 'list show check split use new' || printf '%s' "$(_carpace_plans) --format --into" ;;
    rehearse) printf '%s' "$(_carpace_plans) --script --player --days --seed --format" ;;
    diary) printf '%s' '--since --until --format' ;;
    why) printf '%s' '--day' ;;
    report) printf '%s' '--since --until --for --with --code --format --paper' ;;
    calendar) printf '%s' '--days --at' ;;
    export) printf '%s' '--format --since --until --without-notes --code' ;;
    erase) printf '%s' '--yes' ;;
    export) printf '%s' '--format --since --until --without-notes --code' ;;
    erase) printf '%s' '--yes' ;;
    calc) printf '%s' 'strain-index endurance fatigue rest cut travel training-load' ;;
  esac
}

_carpace ()
{
  local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD-1]} words

  if [ "$COMP_CWORD" = 1 ]; then
    words=$_carpace_commands
  elif ! words=$(_carpace_of_option "$previous"); then
    words=$(_carpace_of_command "${COMP_WORDS[1]}" "$COMP_CWORD")
  fi
  COMPREPLY=($(compgen -W "$words" -- "$current"))
}

# Files where no word fits: plans and scripts are files too.
complete -o default -F _carpace carpace
