package main

import (
	"runtime/debug"
	"strings"

	"casewright"
)

// version is what --version tells: the version, and where the build was stamped
// with it the revision that it was built from and that one's day.
func version() string {
	info, ok := debug.ReadBuildInfo()
	if !ok {
		return casewright.Version
	}
	return versionOf(info.Settings)
}

func versionOf(settings []debug.BuildSetting) string {
	stamp := map[string]string{}
	for _, s := range settings {
		stamp[s.Key] = s.Value
	}
	text := casewright.Version
	if revision := stamp["vcs.revision"]; revision != "" {
		day, _, _ := strings.Cut(stamp["vcs.time"], "T")
		text += " (" + strings.TrimSpace(revision[:min(12, len(revision))]+" "+day)
		if stamp["vcs.modified"] == "true" {
			text += ", changed"
		}
		text += ")"
	}
	return text
}
