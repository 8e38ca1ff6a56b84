# Completion of ostler(1) for fish.  The words come from the program itself.
function __ostler_words
    set -l words (commandline -opc)
    set -l fleet
    for at in (seq 2 (count $words))
        if contains -- $words[$at] -c --config
            set -l next (math $at + 1)
            set fleet -c $words[$next]
        end
    end
    ostler $fleet complete $argv 2>/dev/null
end

set -l commands (ostler complete commands 2>/dev/null)
complete -c ostler -f -n "not __fish_seen_subcommand_from $commands" \
    -a "(__ostler_words commands)"
complete -c ostler -s c -l config -r -d 'the fleet file'
complete -c ostler -l today -x -d 'take this day for today'
for command in $commands
    for option in (ostler complete options $command 2>/dev/null)
        complete -c ostler -n "__fish_seen_subcommand_from $command" \
            -l (string replace -- -- '' $option)
    end
end
complete -c ostler -f -n '__fish_seen_subcommand_from feed key; and not __fish_contains_opt page person driver vehicle' \
    -a '(__ostler_words feeds)'
complete -c ostler -f -n '__fish_seen_subcommand_from key; and __fish_contains_opt page' \
    -a '(__ostler_words depots)'
complete -c ostler -f -n '__fish_seen_subcommand_from key; and __fish_contains_opt person driver' \
    -a '(__ostler_words persons)'
complete -c ostler -f -n '__fish_seen_subcommand_from key; and __fish_contains_opt vehicle' \
    -a '(__ostler_words subjects)'
complete -c ostler -f -n '__fish_seen_subcommand_from why book record' \
    -a '(__ostler_words subjects) (__ostler_words jobs)'
complete -c ostler -f -n '__fish_seen_subcommand_from reading off-road left walk-round defect history' \
    -a '(__ostler_words subjects)'
