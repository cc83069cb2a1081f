package main

import "casewright/cmd/casewright/internal/shell"

type completionCmd struct {
	Shell string `arg:"" help:"bash, zsh or fish." enum:"bash,zsh,fish"`
}

// Help follows the arguments in completion --help.
func (completionCmd) Help() string {
	return `Examples:
  casewright completion bash > casewright.bash
  casewright completion zsh > _casewright
  casewright completion fish > casewright.fish

Tab then completes commands, flags, files, the names of materials, threads and
rings, and the checks of a design. Where the script goes:

  bash: ~/.local/share/bash-completion/completions/casewright where the package
        bash-completion is there; else in ~/.bashrc: source casewright.bash
  zsh:  a folder of fpath, as _casewright; then compinit
  fish: ~/.config/fish/completions/casewright.fish

It is the same after an update: it asks the program.`
}

// Run writes the script.
func (c *completionCmd) Run(io *streams) error {
	text, err := shell.Script(c.Shell)
	if err == nil {
		_, err = io.out.WriteString(text)
	}
	return err
}
