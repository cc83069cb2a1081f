#compdef casewright
# Completes the command line of casewright, which is asked for what may stand
# under the cursor.
_casewright() {
  local -a lines
  lines=("${(@f)$("${(Q)words[1]}" complete --shell=zsh -- "${(@Q)words[1,CURRENT-1]}" "${(Q)PREFIX}" 2>/dev/null)}")
  [[ -n $lines ]] || return 1
  [[ $PREFIX != --*=* ]] || compset -P 1 '*='
  if [[ $lines[1] == ':files '* ]]; then
    _files -g "*${lines[1]#:files }"
  else
    _describe -V -t values value lines
  fi
}
if [[ $funcstack[1] == _casewright ]]; then
  _casewright "$@"
else
  compdef _casewright casewright
fi
