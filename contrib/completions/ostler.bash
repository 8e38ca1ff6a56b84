# Completion of ostler(1) for bash.  The words come from the program itself.
_ostler() {
    local current=${COMP_WORDS[COMP_CWORD]} previous=${COMP_WORDS[COMP_CWORD - 1]}
    local command= fleet=() operands=0 word i
    for ((i = 1; i < COMP_CWORD; i++)); do
        word=${COMP_WORDS[i]}
        case $word in
        -c | --config) fleet=(-c "${COMP_WORDS[++i]}") ;;
        --today | --on | --from | --until | --within | --by | --note | \
            --reference | --reading | --old-meter | --result | --void | \
            --depot | --subject | --job | --to | --sheet | --what-if | \
            --days | --separator | --at | --defect | --grade | --answered | \
            --paper | --end-reading | --record | --why | --*-column) \
            ((i++)) ;;
        -*) ;;
        *) if [ -z "$command" ]; then command=$word; else ((operands++)); fi ;;
        esac
    done
    local what=
    case $previous in
    -c | --config | --sheet) COMPREPLY=($(compgen -f -- "$current")); return ;;
    --result) COMPREPLY=($(compgen -W 'completed failed' -- "$current")); return ;;
    --depot | --page) what=depots ;;
    --person | --driver) what=persons ;;
    --vehicle) what=subjects ;;
    --subject) what=subjects ;;
    --job) what=jobs ;;
    --why) COMPREPLY=($(compgen -W 'sold scrapped returned' -- "$current")); return ;;
    esac
    if [ -n "$what" ]; then
        :
    elif [ -z "$command" ]; then
        what=commands
    elif [[ $current == -* ]]; then
        what="options $command"
    else
        case $command:$operands in
        feed:0 | key:0) what=feeds ;;
        why:0 | book:0 | record:0 | reading:0 | off-road:0 | left:0 | walk-round:0 | defect:0 | history:0) what=subjects ;;
        assess:1) COMPREPLY=($(compgen -W 'stop until watch nothing' -- "$current")); return ;;
        why:1 | book:1 | record:1) what=jobs ;;
        esac
    fi
    [ -n "$what" ] || return
    # shellcheck disable=SC2086 # "options due" is two words
    COMPREPLY=($(compgen -W "$(ostler "${fleet[@]}" complete $what 2>/dev/null)" \
        -- "$current"))
}
complete -F _ostler ostler
