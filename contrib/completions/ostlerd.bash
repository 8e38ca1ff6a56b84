# Completion of ostlerd(8) for bash.  The words come from the program itself.
_ostlerd() {
    local current=${COMP_WORDS[COMP_CWORD]}
    case ${COMP_WORDS[COMP_CWORD - 1]} in
    -c | --config) COMPREPLY=($(compgen -f -- "$current")); return ;;
    --listen | --today) return ;;
    esac
    COMPREPLY=($(compgen -W "$(ostlerd --help 2>/dev/null |
        grep -oE -- '--[a-z]+')" -- "$current"))
}
complete -F _ostlerd ostlerd
