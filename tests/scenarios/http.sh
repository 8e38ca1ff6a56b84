# http.sh: a server for a scenario, beside lib.sh.
# shellcheck shell=sh disable=SC2154 # $folder and $BUILD are of lib.sh

server=$BUILD/tests/http/serve

# serve ARGUMENT...: start it; $site is where, $pid who, its log in $folder/log.
serve() {
    rm -f "$folder/commands" "$folder/says"
    mkfifo "$folder/commands"
    "$server" "$@" <"$folder/commands" >"$folder/says" 2>"$folder/log" &
    pid=$!
    exec 9>"$folder/commands"
    wait_for test -s "$folder/says"
    site=http://$(head -n 1 "$folder/says")
}

# tell COMMAND: and wait until it is done.
tell() {
    before=$(wc -l <"$folder/says")
    echo "$1" >&9
    while [ "$(wc -l <"$folder/says")" -eq "$before" ]; do
        sleep 0.02
    done
}

# stop: end it; it $took so many milliseconds.
stop() {
    took=$(date +%s%3N)
    echo stop >&9
    exec 9>&-
    check "the server ends well" wait "$pid"
    took=$(($(date +%s%3N) - took))
}

# field NAME: its value in the head of an answer.
field() {
    tr -d '\r' | sed -n "s/^$1: //p"
}

# status: of an answer, by its head.
status() {
    sed -n '1s/^HTTP[^ ]* \(...\).*/\1/p'
}

# code_of ARGUMENT...: the status that curl gets.
code_of() {
    curl -s -o "$folder/answer" -w '%{http_code}' "$@"
}
