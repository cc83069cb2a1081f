# Completes the command line of casewright, which is asked for what may stand
# under the cursor. It needs no other script.
_casewright() {
  local line columns=0
  COMPREPLY=()
  # A list that is only shown, after a second Tab, has the help beside each word.
  [ "${COMP_TYPE:-9}" != 63 ] || columns=${COLUMNS:-80}
  while IFS= read -r line; do
    case $line in
      ':files '*)
        compopt -o filenames 2>/dev/null
        while IFS= read -r line; do
          COMPREPLY+=("$line")
        done < <(compgen -d -- "$2"; compgen -f -X "!*${line#:files }" -- "$2")
        ;;
      *) COMPREPLY+=("$line") ;;
    esac
  done < <("$1" complete --shell=bash --breaks="$COMP_WORDBREAKS" --list="$columns" -- "${COMP_LINE:0:COMP_POINT}" 2>/dev/null)
}
complete -o nosort -F _casewright casewright 2>/dev/null || complete -F _casewright casewright
