# Completes the command line of casewright, which is asked for what may stand
# under the cursor.
function __casewright_complete
    set -l words (commandline -xpc 2>/dev/null; or commandline -opc)
    for line in ($words[1] complete --shell=fish -- $words (commandline -ct) 2>/dev/null)
        switch $line
            case ':files *'
                __fish_complete_suffix (string replace ':files ' '' -- $line | string replace '*' '')
            case '*'
                echo $line
        end
    end
end
complete -c casewright -f -k -a '(__casewright_complete)'
