// smtp_sink.js FOLDER KEY CERTIFICATE: a server of the npm package smtp-server
// on a free port of 127.0.0.1, which it prints.  It wants STARTTLS and a login,
// and keeps each message in FOLDER under the name of its recipient.
const fs = require("fs");
const { SMTPServer } = require("smtp-server");
const [folder, key, cert] = process.argv.slice(2);

const server = new SMTPServer({
  key: fs.readFileSync(key),
  cert: fs.readFileSync(cert),
  onAuth(auth, session, done) {
    const right = auth.username === "buses" && auth.password === "herring";
    done(right ? null : new Error("wrong"), right ? { user: "buses" } : null);
  },
  onData(stream, session, done) {
    const to = session.envelope.rcptTo[0].address;
    const file = fs.createWriteStream(`${folder}/${to}`);
    stream.pipe(file);
    file.on("finish", () => done(null, session.secure ? "kept" : "in clear"));
  },
});
server.on("error", (error) => console.error(error.message));
server.listen(0, "127.0.0.1", () => console.log(server.server.address().port));
