/*
 * For a page on a wall, where nobody reloads.  Once a minute it asks whether
 * there is a newer version, and takes it unless somebody is filling in a form.
 * When the server does not answer it says so, because an old page looks like a
 * new one.
 */
if (/^http/.test(location.protocol)) {
    let tag = null;
    let bad = null;
    const look = async () => {
        try {
            const r = await fetch(location.href, {cache: 'no-cache'});
            if (!r.ok) throw r;
            const t = r.headers.get('etag');
            bad = null;
            tag = tag || t;
            if (t !== tag && !document.querySelector('details[open]>form'))
                location.reload();
        } catch {
            bad = bad || new Date();
        }
        const p = document.getElementById('stale');
        p.hidden = !bad;
        if (bad)
            p.textContent = 'Not brought up to date since ' +
                bad.toLocaleTimeString() + ': the server does not answer.';
    };
    look();
    setInterval(look, 60000);
}
