# SPDX-License-Identifier: GPL-3.0-or-later
# fish completion for carpace(1): the program reads its own table.
function __carpace_offers
    set -l words (commandline -opc) (commandline -ct)
    for line in (carpace --complete $words[2..-1] 2>/dev/null)
        if test "$line" = /
            __fish_complete_path (commandline -ct) # a file fits, too
        else
            echo $line
        end
    end
end
complete -c carpace -f -a '(__carpace_offers)'
