#include "page_parts.h"

/*
 * For a wall, where nobody reloads: once a minute the page asks whether there
 * is a newer one, and takes it unless somebody is filling in a form; and when
 * the server is gone it says so, because an old page looks like a new one.  A
 * change here needs a new hash in PAGE_POLICY.
 */
const char page_script[] =
    "if(/^http/.test(location.protocol)){let tag=null,bad=null;"
    "const look=async()=>{try{"
    "const r=await fetch(location.href,{cache:'no-cache'});if(!r.ok)throw r;"
    "const t=r.headers.get('etag');bad=null;tag=tag||t;"
    "if(t!==tag&&!document.querySelector('details[open]>form'))location.reload("
    ")"
    "}catch{bad=bad||new Date}"
    "const p=document.getElementById('stale');p.hidden=!bad;"
    "if(bad)p.textContent='Not brought up to date since '+"
    "bad.toLocaleTimeString()+': the server does not answer.'};"
    "look();setInterval(look,60000)}";
