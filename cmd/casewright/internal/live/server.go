package live

import (
	"context"
	"crypto/rand"
	"crypto/subtle"
	"errors"
	"fmt"
	"io"
	"log"
	"net"
	"net/http"
	"strings"
	"sync"
	"time"
)

const (
	mostConnections = 64
	mostStreams     = 5 // a browser opens six connections to one server and waits with more
	mostHeader      = 8 << 10
	headerTime      = 5 * time.Second
	stall           = 15 * time.Second // that a reader may hold up what is written to it
	idleTime        = 30 * time.Second
	endTime         = time.Second
)

// A Server shows one page to browsers of this machine, and nothing else of it.
// What is shown is made once, by whoever calls Show; readers share it and hold
// up nothing.
type Server struct {
	page     *page
	board    *board
	listener net.Listener
	server   *http.Server
	host     string // as browsers must name it
	folder   string // the path of the page, which nobody can guess
	streams  chan struct{}
	ended    chan struct{}
}

// Listen begins to listen, at a free port of the loopback interface only. The
// style is that of the pictures.
func Listen(documentStyle string) (*Server, error) {
	listener, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		var other error
		if listener, other = net.Listen("tcp6", "[::1]:0"); other != nil {
			return nil, errors.Join(err, other)
		}
	}
	p, err := newPage(documentStyle)
	if err != nil {
		listener.Close()
		return nil, err
	}
	s := &Server{
		page: p, board: newBoard(), listener: &bounded{listener, make(chan struct{}, mostConnections)},
		host: listener.Addr().String(), folder: "/" + rand.Text() + "/",
		streams: make(chan struct{}, mostStreams), ended: make(chan struct{}),
	}
	s.server = &http.Server{
		Handler:           http.HandlerFunc(s.answer),
		ReadHeaderTimeout: headerTime,
		ReadTimeout:       headerTime,
		WriteTimeout:      stall,
		IdleTimeout:       idleTime,
		MaxHeaderBytes:    mostHeader,
		ErrorLog:          log.New(io.Discard, "", 0), // a stranger's requests are not the reader's concern
	}
	return s, nil
}

// Address is what a browser opens.
func (s *Server) Address() string { return "http://" + s.host + s.folder }

// Serve answers until Close, and always returns an error.
func (s *Server) Serve() error { return s.server.Serve(s.listener) }

// Close tells the pages that the program ends, and ends all connections.
func (s *Server) Close() error {
	close(s.ended)
	ctx, cancel := context.WithTimeout(context.Background(), endTime)
	defer cancel()
	err := s.server.Shutdown(ctx)
	if err != nil {
		err = s.server.Close()
	}
	return errors.Join(err, closed(s.listener))
}

// closed closes a listener that may be closed already.
func closed(l net.Listener) error {
	if err := l.Close(); !errors.Is(err, net.ErrClosed) {
		return err
	}
	return nil
}

// Show puts up a view in place of the one before. One caller at a time.
func (s *Server) Show(v *View) error {
	now, _ := s.board.look()
	html, err := v.frame(now.number + 1)
	if err == nil {
		s.board.put(html)
	}
	return err
}

// answer answers one request. What does not come from our own page, or from a
// reader who opened its address, learns nothing.
func (s *Server) answer(w http.ResponseWriter, r *http.Request) {
	for name, value := range map[string]string{
		"Content-Security-Policy":      s.page.policy,
		"X-Content-Type-Options":       "nosniff",
		"Referrer-Policy":              "no-referrer",
		"Cross-Origin-Resource-Policy": "same-origin",
		"Cross-Origin-Opener-Policy":   "same-origin",
		"Cache-Control":                "no-store",
	} {
		w.Header().Set(name, value)
	}
	if fault := s.refuse(r); fault != 0 {
		if fault == http.StatusMethodNotAllowed {
			w.Header().Set("Allow", "GET, HEAD")
		}
		http.Error(w, http.StatusText(fault), fault)
		return
	}
	switch strings.TrimPrefix(r.URL.Path, s.folder) {
	case "":
		s.write(w, s.page.before, s.page.after)
	case "picture":
		s.write(w, "", "")
	case "events":
		s.events(w, r)
	}
}

// refuse gives the status of what is not answered; 0 where it is. The host tells
// a name that was made to point here (DNS rebinding), origin and site a page of
// somebody else's, the path who does not know the address. Sources: Fetch
// Standard, Origin header; Fetch Metadata Request Headers, Sec-Fetch-Site.
func (s *Server) refuse(r *http.Request) int {
	switch {
	case r.Host != s.host,
		!only(r.Header["Origin"], "http://"+s.host),
		!only(r.Header["Sec-Fetch-Site"], "same-origin", "none"):
		return http.StatusForbidden
	case r.Method != http.MethodGet && r.Method != http.MethodHead:
		return http.StatusMethodNotAllowed
	case r.ContentLength != 0:
		return http.StatusRequestEntityTooLarge
	}
	for _, path := range []string{"", "picture", "events"} {
		if subtle.ConstantTimeCompare([]byte(r.URL.Path), []byte(s.folder+path)) == 1 {
			return 0
		}
	}
	return http.StatusNotFound
}

// only tells that a header is not there, or once and as one of those.
func only(values []string, known ...string) bool {
	if len(values) == 0 {
		return true
	}
	for _, one := range known {
		if len(values) == 1 && values[0] == one {
			return true
		}
	}
	return false
}

// write writes the newest frame.
func (s *Server) write(w http.ResponseWriter, before, after string) {
	frame, _ := s.board.look()
	w.Header().Set("Content-Type", "text/html; charset=utf-8")
	for _, part := range [][]byte{[]byte(before), frame.html, []byte(after)} {
		if _, err := w.Write(part); err != nil {
			return // nobody reads on
		}
	}
}

// events tells a page the number of each newest frame, as server-sent events.
// Those that came while it was being told are left out. Source: HTML Standard,
// server-sent events.
func (s *Server) events(w http.ResponseWriter, r *http.Request) {
	select {
	case s.streams <- struct{}{}:
		defer func() { <-s.streams }()
	default:
		http.Error(w, "too many pages", http.StatusServiceUnavailable)
		return
	}
	w.Header().Set("Content-Type", "text/event-stream")
	if r.Method == http.MethodHead {
		return
	}
	control := http.NewResponseController(w)
	tell := func(text string) error {
		return errors.Join(control.SetWriteDeadline(time.Now().Add(stall)), second(io.WriteString(w, text)), control.Flush())
	}
	if control.SetReadDeadline(time.Time{}) != nil || tell("retry: 1000\n\n") != nil {
		return
	}
	for told := 0; ; {
		frame, changed := s.board.look()
		if frame.number != told {
			if tell(fmt.Sprintf("data: %d\n\n", frame.number)) != nil {
				return
			}
			told = frame.number
		}
		select {
		case <-changed:
		case <-r.Context().Done():
			return
		case <-s.ended:
			_ = tell("event: end\ndata:\n\n") // who does not hear it sees the connection end
			return
		}
	}
}

func second(_ int, err error) error { return err }

// bounded is a listener with a bounded number of connections; more wait.
type bounded struct {
	net.Listener
	open chan struct{}
}

// Accept waits for a connection, and for one of ours to end where there are too
// many.
func (b *bounded) Accept() (net.Conn, error) {
	b.open <- struct{}{}
	c, err := b.Listener.Accept()
	if err != nil {
		<-b.open
		return nil, err
	}
	return &counted{c, sync.OnceFunc(func() { <-b.open })}, nil
}

type counted struct {
	net.Conn
	end func()
}

// Close ends the connection.
func (c *counted) Close() error {
	defer c.end()
	return c.Conn.Close()
}
