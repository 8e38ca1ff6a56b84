# proxies.sh: nginx and Apache with the examples of contrib/proxy, beside lib.sh
# and daemon.sh; they work in the folder of the fleet, with their logs in logs.
# shellcheck shell=sh disable=SC2154 # $folder, $tree and $site are of those

PATH=$PATH:/usr/sbin
name=fleet.skerrow.example

# free: a port that nobody listens to.
free() {
    python3 -c 'import socket
s = socket.socket()
s.bind(("127.0.0.1", 0))
print(s.getsockname()[1])'
}

# change FILE PATTERN BY...: in the file, what a user has to; each is there.
change() {
    file=$1
    shift
    while [ $# -gt 0 ]; do
        check "$(basename "$file") has '$1' to change" grep -q "$1" "$file"
        sed -i "s,$1,$2," "$file"
        shift 2
    done
}

stop_proxies() {
    for proxy in nginx/nginx.pid apache/apache2.pid; do
        [ ! -s "$folder/proxies/$proxy" ] ||
            kill "$(cat "$folder/proxies/$proxy")" 2>/dev/null
        wait_for test ! -e "$folder/proxies/$proxy"
    done
}
trap 'stop_proxies; [ -z "$pid" ] || kill -CONT "$pid"
    [ -z "$pid" ] || kill "$pid"
    cd "$tree" && chmod -R u+rwX "$folder" && rm -rf "$folder"' EXIT

# certify: a certificate of its own.
certify() {
    openssl req -x509 -newkey ec -pkeyopt ec_paramgen_curve:P-256 -nodes \
        -subj "/CN=$name" -addext "subjectAltName=DNS:$name" -days 2 \
        -keyout privkey.pem -out fullchain.pem 2>/dev/null
}

# --- nginx ------------------------------------------------------------------

# start_nginx PATTERN BY...: Debian's usual settings and the example, with
# what a user changes, these too.
start_nginx() {
    https=$(free)
    http=$(free)
    front=https://$name:$https
    cp "$tree/contrib/proxy/nginx.conf" nginx/site.conf
    change nginx/site.conf "listen 443" "listen 127.0.0.1:$https" \
        "listen 80;" "listen 127.0.0.1:$http;" \
        "listen \[::\]:443" "listen [::1]:$https" \
        "listen \[::\]:80;" "listen [::1]:$http;" \
        "/etc/ssl/$name" "$folder/proxies" "/var/log/nginx" "$folder/proxies/logs" \
        'https://$host' "https://\$host:$https" "$@"
    [ -e /proc/net/if_inet6 ] || sed -i '/\[::1\]/d' nginx/site.conf
    cat >nginx/nginx.conf <<CONF
$([ "$(id -u)" -ne 0 ] || echo 'user root;')
worker_processes 2;
pid $folder/proxies/nginx/nginx.pid;
error_log $folder/proxies/logs/nginx-main-error.log;
events {
    worker_connections ${connections:-768};
}
http {
    client_body_temp_path $folder/proxies/nginx/tmp;
    proxy_temp_path $folder/proxies/nginx/tmp;
    fastcgi_temp_path $folder/proxies/nginx/tmp;
    uwsgi_temp_path $folder/proxies/nginx/tmp;
    scgi_temp_path $folder/proxies/nginx/tmp;
    access_log $folder/proxies/logs/nginx-main.log;
    gzip on;
    include $folder/proxies/nginx/site.conf;
}
CONF
    check "nginx -t finds nothing wrong" nginx -t -q -p nginx -c nginx.conf \
        -e "$folder/proxies/logs/nginx-start.log"
    nginx -p nginx -c nginx.conf -e "$folder/proxies/logs/nginx-start.log"
}

# --- Apache -----------------------------------------------------------------

# start_apache: Debian's settings, a copy of them, and the example.
start_apache() {
    https=$(free)
    http=$(free)
    front=https://$name:$https
    cp -R /etc/apache2 apache
    rm -f apache/sites-enabled/* apache/ports.conf
    sed -e "s,/var/[a-z]*/apache2[^/.]*,$folder/proxies/apache," \
        -e "/APACHE_LOG_DIR/s,=.*,=$folder/proxies/logs," \
        /etc/apache2/envvars >apache/envvars
    printf 'ServerName localhost\nListen 127.0.0.1:%s\nListen 127.0.0.1:%s\n' \
        "$https" "$http" >apache/ports.conf
    cp "$tree/contrib/proxy/apache.conf" apache/sites-enabled/ostler.conf
    change apache/sites-enabled/ostler.conf '\*:443>' "*:$https>" \
        '\*:80>' "*:$http>" "/etc/ssl/$name" "$folder/proxies" \
        "/var/log/apache2" "$folder/proxies/logs" \
        "https://$name/" "https://$name:$https/" \
        "127.0.0.1:8080" "${site#http://}"
    export APACHE_CONFDIR="$folder/proxies/apache"
    # What the example says that it needs.
    modules=$(sed -n 's/^#  *a2enmod //p' apache/sites-enabled/ostler.conf)
    check "it says which modules it needs" test -n "$modules"
    # shellcheck disable=SC2086 # a word a module
    check "they are Debian's" /usr/sbin/a2enmod -q $modules
    check "apachectl configtest finds nothing wrong" \
        /usr/sbin/apache2ctl configtest
    /usr/sbin/apache2ctl start
}

# --- What is asked ----------------------------------------------------------

# ask PATH ARGUMENT...: through the proxy, as a client at 127.0.0.9 that knows
# its certificate; head and body in $folder/head and $folder/answer.
ask() {
    asked=$1
    shift
    rm -f "$folder/answer"
    curl -s -D "$folder/head" -o "$folder/answer" -w '%{http_code}' \
        --path-as-is --cacert fullchain.pem --interface 127.0.0.9 \
        --resolve "$name:$https:127.0.0.1" --resolve "$name:$http:127.0.0.1" \
        "$@" "$front$asked"
}
front=

# field NAME: its value in that head.
field() {
    tr -d '\r' <"$folder/head" | sed -n "s/^$1: //Ip"
}

# tell BYTES: send them as they stand, on a connection with TLS.
tell() {
    printf '%b' "$1" | timeout 5 openssl s_client -quiet -verify_quiet \
        -ign_eof -connect "127.0.0.1:$https" 2>/dev/null
}
