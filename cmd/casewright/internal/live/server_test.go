package live

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"net"
	"net/http"
	"runtime"
	"strings"
	"testing"
	"time"
)

// comes is how long a test waits for what must come.
const comes = 30 * time.Second

// served is a server that shows a picture.
func served(t *testing.T) *Server {
	t.Helper()
	s, err := Listen("body { color: red }\n")
	if err != nil {
		t.Fatal(err)
	}
	if err := s.Show(&View{File: "my.toml", Title: "my", Picture: "<p>the picture</p>"}); err != nil {
		t.Fatal(err)
	}
	ended := make(chan error)
	go func() { ended <- s.Serve() }()
	t.Cleanup(func() {
		if err := s.Close(); err != nil {
			t.Error(err)
		}
		<-ended
	})
	return s
}

// dialled is a connection to the server.
func dialled(t *testing.T, s *Server) net.Conn {
	t.Helper()
	c, err := net.Dial("tcp", s.host)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { c.Close() })
	if err := c.SetDeadline(time.Now().Add(comes)); err != nil {
		t.Fatal(err)
	}
	return c
}

// asked sends a request as it stands, and returns the answer with all but the
// text of a stream.
func asked(t *testing.T, s *Server, request string) (*http.Response, string) {
	t.Helper()
	c := dialled(t, s)
	if _, err := io.WriteString(c, request); err != nil {
		t.Fatal(err)
	}
	method, _, _ := strings.Cut(request, " ")
	answer, err := http.ReadResponse(bufio.NewReader(c), &http.Request{Method: method})
	if err != nil {
		t.Fatalf("%.60q: %v", request, err)
	}
	if answer.Header.Get("Content-Type") == "text/event-stream" {
		return answer, ""
	}
	text, err := io.ReadAll(answer.Body)
	if err != nil && answer.StatusCode != 431 { // that ends before all is sent
		t.Fatalf("%.60q: %v", request, err)
	}
	return answer, string(text)
}

// TestWhoIsAnswered holds who is, over sockets: our own page and a reader who
// opens the address, by its own name and path, and nobody else. Sources: Fetch
// Standard; Fetch Metadata Request Headers.
func TestWhoIsAnswered(t *testing.T) {
	s := served(t)
	_, port, _ := net.SplitHostPort(s.host)
	own := "Host: " + s.host + "\r\n"
	for _, c := range []struct {
		name, method, path, headers string
		want                        int
	}{
		{"the page", "GET", s.folder, own, 200},
		{"its picture", "GET", s.folder + "picture", own, 200},
		{"its events", "GET", s.folder + "events", own, 200},
		{"its head", "HEAD", s.folder, own, 200},
		{"head of its events", "HEAD", s.folder + "events", own, 200},
		{"opened by a reader", "GET", s.folder, own + "Sec-Fetch-Site: none\r\n", 200},
		{"asked by our page", "GET", s.folder + "events", own + "Sec-Fetch-Site: same-origin\r\nOrigin: http://" + s.host + "\r\n", 200},
		{"with its whole address", "GET", "http://" + s.host + s.folder, own, 200},

		{"another host", "GET", s.folder, "Host: evil.example\r\n", 403},
		{"another host, the port", "GET", s.folder, "Host: evil.example:" + port + "\r\n", 403},
		{"localhost", "GET", s.folder, "Host: localhost:" + port + "\r\n", 403},
		{"without the port", "GET", s.folder, "Host: 127.0.0.1\r\n", 403},
		{"an empty host", "GET", s.folder, "Host: \r\n", 403},
		{"another host in the address", "GET", "http://evil.example" + s.folder, own, 403},
		{"another origin", "GET", s.folder, own + "Origin: http://evil.example\r\n", 403},
		{"another port", "GET", s.folder, own + "Origin: http://127.0.0.1:1\r\n", 403},
		{"https", "GET", s.folder, own + "Origin: https://" + s.host + "\r\n", 403},
		{"a file", "GET", s.folder, own + "Origin: null\r\n", 403},
		{"an empty origin", "GET", s.folder, own + "Origin: \r\n", 403},
		{"two origins", "GET", s.folder, own + "Origin: http://" + s.host + "\r\nOrigin: http://evil.example\r\n", 403},
		{"from another site", "GET", s.folder, own + "Sec-Fetch-Site: cross-site\r\n", 403},
		{"from the same site", "GET", s.folder, own + "Sec-Fetch-Site: same-site\r\n", 403},
		{"events from another site", "GET", s.folder + "events", own + "Sec-Fetch-Site: cross-site\r\n", 403},
		{"from two sites", "GET", s.folder, own + "Sec-Fetch-Site: none\r\nSec-Fetch-Site: cross-site\r\n", 403},
		{"from no known site", "GET", s.folder, own + "Sec-Fetch-Site: SAME-ORIGIN\r\n", 403},

		{"post", "POST", s.folder, own + "Content-Length: 0\r\n", 405},
		{"put", "PUT", s.folder, own, 405},
		{"options", "OPTIONS", s.folder, own, 405},
		{"delete", "DELETE", s.folder, own, 405},
		{"trace", "TRACE", s.folder, own, 405},
		{"get in small letters", "get", s.folder, own, 405},
		{"a text", "GET", s.folder, own + "Content-Length: 1\r\n\r\nx", 413},
		{"a text in chunks", "GET", s.folder, own + "Transfer-Encoding: chunked\r\n\r\n0\r\n", 413},

		{"the root", "GET", "/", own, 404},
		{"no token", "GET", "/picture", own, 404},
		{"the folder without its end", "GET", strings.TrimSuffix(s.folder, "/"), own, 404},
		{"another token", "GET", "/" + strings.Repeat("A", 26) + "/", own, 404},
		{"a token one letter short", "GET", s.folder[:len(s.folder)-2] + "/", own, 404},
		{"the token in small letters", "GET", strings.ToLower(s.folder), own, 404},
		{"another path", "GET", s.folder + "x", own, 404},
		{"the design", "GET", s.folder + "my.toml", own, 404},
		{"up", "GET", s.folder + "../" + s.folder[1:], own, 404},
		{"up, in code", "GET", s.folder + "..%2f..%2fetc/passwd", own, 404},
		{"a file of the disk", "GET", "/etc/passwd", own, 404},
		{"twice the slash", "GET", "/" + s.folder, own, 404},
		{"an icon", "GET", "/favicon.ico", own, 404},

		{"a long header", "GET", s.folder, own + "X: " + strings.Repeat("x", 64<<10) + "\r\n", 431},
	} {
		answer, text := asked(t, s, c.method+" "+c.path+" HTTP/1.1\r\n"+c.headers+"Connection: close\r\n\r\n")
		if answer.StatusCode != c.want {
			t.Errorf("%s: status %d, want %d", c.name, answer.StatusCode, c.want)
		}
		if c.want != 200 && (strings.Contains(text, "picture") || strings.Contains(text, s.folder)) {
			t.Errorf("%s: refused, and told all the same: %q", c.name, text)
		}
		if c.want == 200 && c.method == "GET" && answer.Header.Get("Content-Type") != "text/event-stream" && !strings.Contains(text, "the picture") {
			t.Errorf("%s: %.80q", c.name, text)
		}
		if c.want == 405 && answer.Header.Get("Allow") != "GET, HEAD" {
			t.Errorf("%s: allowed is %q", c.name, answer.Header.Get("Allow"))
		}
		if c.want == 431 {
			continue // answered before there is a request
		}
		for name, want := range map[string]string{
			"X-Content-Type-Options":       "nosniff",
			"Referrer-Policy":              "no-referrer",
			"Cross-Origin-Resource-Policy": "same-origin",
			"Cross-Origin-Opener-Policy":   "same-origin",
			"Cache-Control":                "no-store",
			"Access-Control-Allow-Origin":  "",
		} {
			if got := answer.Header.Get(name); got != want {
				t.Errorf("%s: %s is %q, want %q", c.name, name, got, want)
			}
		}
		policy := answer.Header.Get("Content-Security-Policy")
		for _, part := range []string{"default-src 'none'", "connect-src 'self'", "base-uri 'none'", "form-action 'none'", "frame-ancestors 'none'", "script-src 'sha256-", "style-src 'sha256-"} {
			if !strings.Contains(policy, part) {
				t.Errorf("%s: the policy lacks %s: %s", c.name, part, policy)
			}
		}
		if strings.Contains(policy, "unsafe") || strings.Contains(policy, "*") || strings.Contains(policy, "http") {
			t.Errorf("%s: the policy is open: %s", c.name, policy)
		}
	}
}

// TestLoopback holds that no other machine can reach the page, and that its
// address cannot be guessed: 128 bits of chance, another each time.
func TestLoopback(t *testing.T) {
	seen := map[string]bool{}
	for range 3 {
		s := served(t)
		if a := s.listener.Addr().(*net.TCPAddr); !a.IP.IsLoopback() || a.Port == 0 {
			t.Errorf("it listens on %v", a)
		}
		if token := strings.Trim(s.folder, "/"); len(token) < 26 || seen[token] { // of 32 letters: 130 bits
			t.Errorf("the token is %q", token)
		}
		seen[strings.Trim(s.folder, "/")] = true
	}
}

// stream opens the events.
func stream(t *testing.T, s *Server) (net.Conn, *http.Response, *bufio.Reader) {
	t.Helper()
	c := dialled(t, s)
	fmt.Fprintf(c, "GET %sevents HTTP/1.1\r\nHost: %s\r\n\r\n", s.folder, s.host)
	answer, err := http.ReadResponse(bufio.NewReader(c), nil)
	if err != nil {
		t.Fatal(err)
	}
	return c, answer, bufio.NewReader(answer.Body)
}

// wait reads a stream until a line comes.
func wait(t *testing.T, r *bufio.Reader, want string) {
	t.Helper()
	for {
		line, err := r.ReadString('\n')
		if err != nil {
			t.Fatalf("%q never came: %v", want, err)
		}
		if line == want+"\n" {
			return
		}
	}
}

// TestEvents holds that a page is told the newest frame, and the end; and that
// no more pages are than a browser can bear.
func TestEvents(t *testing.T) {
	s, err := Listen("")
	if err != nil {
		t.Fatal(err)
	}
	ended := make(chan error)
	go func() { ended <- s.Serve() }()
	var readers []*bufio.Reader
	for range mostStreams {
		_, answer, r := stream(t, s)
		if answer.StatusCode != 200 {
			t.Fatalf("status %d", answer.StatusCode)
		}
		readers = append(readers, r)
	}
	if _, answer, _ := stream(t, s); answer.StatusCode != 503 {
		t.Errorf("one too many: status %d", answer.StatusCode)
	}
	for n := range 3 {
		if err := s.Show(&View{Title: "my"}); err != nil {
			t.Fatal(err)
		}
		for _, r := range readers {
			wait(t, r, fmt.Sprintf("data: %d", n+1))
		}
	}
	if err := s.Close(); err != nil {
		t.Error(err)
	}
	<-ended
	for _, r := range readers {
		wait(t, r, "event: end")
		wait(t, r, "data:")
		if rest, err := io.ReadAll(r); err != nil || len(bytes.TrimSpace(rest)) > 0 {
			t.Errorf("after the end: %q, %v", rest, err)
		}
	}
}

// TestStreamEnds holds that a page that goes away makes room for another.
func TestStreamEnds(t *testing.T) {
	s := served(t)
	for range 5 * mostStreams {
		c, answer, _ := stream(t, s)
		for end := time.Now().Add(comes); answer.StatusCode == 503 && time.Now().Before(end); {
			c.Close() // the one before has not been missed yet
			c, answer, _ = stream(t, s)
		}
		if answer.StatusCode != 200 {
			t.Fatalf("status %d", answer.StatusCode)
		}
		c.Close()
	}
}

// TestConnections holds that there are no more than so many, that more wait, and
// that they are answered when others have gone.
func TestConnections(t *testing.T) {
	s := served(t)
	var idle []net.Conn
	for range mostConnections {
		idle = append(idle, dialled(t, s))
	}
	opened := func() int { return len(s.listener.(*bounded).open) }
	for end := time.Now().Add(comes); opened() < mostConnections && time.Now().Before(end); {
		time.Sleep(time.Millisecond)
	}
	late := dialled(t, s)
	fmt.Fprintf(late, "GET %s HTTP/1.1\r\nHost: %s\r\n\r\n", s.folder, s.host)
	if err := late.SetReadDeadline(time.Now().Add(100 * time.Millisecond)); err != nil {
		t.Fatal(err)
	}
	if _, err := late.Read(make([]byte, 1)); err == nil {
		t.Error("one too many is answered")
	}
	idle[0].Close()
	if err := late.SetReadDeadline(time.Now().Add(comes)); err != nil {
		t.Fatal(err)
	}
	if _, err := http.ReadResponse(bufio.NewReader(late), nil); err != nil {
		t.Error("it is never answered: ", err)
	}
}

// TestSlowReaders holds that readers who do not read hold up nobody, and that
// nothing is kept for them: what a thousand frames leave is what one does.
func TestSlowReaders(t *testing.T) {
	s := served(t)
	// More than the sockets between hold.
	if err := s.Show(&View{Title: "my", Picture: repeat("x", 16<<20)}); err != nil {
		t.Fatal(err)
	}
	for range mostStreams - 1 {
		stream(t, s) // and never reads
	}
	for range 4 {
		c := dialled(t, s)
		if err := c.(*net.TCPConn).SetReadBuffer(4 << 10); err != nil {
			t.Fatal(err)
		}
		fmt.Fprintf(c, "GET %s HTTP/1.1\r\nHost: %s\r\n\r\n", s.folder, s.host)
	}
	_, _, r := stream(t, s)
	show := func(count int) {
		for range count {
			if err := s.Show(&View{Title: "my", Picture: repeat("x", 64<<10)}); err != nil {
				t.Fatal(err)
			}
		}
		now, _ := s.board.look()
		wait(t, r, fmt.Sprintf("data: %d", now.number))
	}
	show(20)
	before, routines := inUse(), runtime.NumGoroutine()
	show(1000)
	if after := inUse(); after > before+2<<20 {
		t.Errorf("memory in use grows from %d to %d bytes", before, after)
	}
	if after := runtime.NumGoroutine(); after > routines+2 {
		t.Errorf("from %d to %d goroutines", routines, after)
	}
}

// inUse is the memory that is reached.
func inUse() uint64 {
	var m runtime.MemStats
	runtime.GC()
	runtime.GC()
	runtime.ReadMemStats(&m)
	return m.HeapAlloc
}
