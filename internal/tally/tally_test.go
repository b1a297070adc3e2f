package tally_test

import (
	"context"
	"math"
	"net/http"
	"net/http/httptest"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/prometheus/common/expfmt"
	"github.com/prometheus/common/model"

	"tarnwright/internal/tally"
)

func filled() *tally.Tally {
	t := tally.New(time.UnixMilli(1_800_000_000_500), func(context.Context) []tally.State {
		return []tally.State{{Site: "main", Ready: true, Waiting: 3, Dead: 1, Oldest: 90 * time.Second}, {Site: "oak-hill"}}
	})
	s := t.Site("main")
	for _, ms := range []int{0, 1, 2, 7, 300, 60_000} {
		s.Answered("GET /{$}", 200, time.Duration(ms)*time.Millisecond)
	}
	s.Answered("POST /api/v1/leads", 503, 30*time.Millisecond)
	s.Answered("POST /api/v1/leads", 0, 30*time.Millisecond)
	s.Answered("a \"route\" \\ with\nall\xff", 404, 0)
	s.Enquiry("stored")
	s.Enquiry("stored")
	s.Enquiry("put_aside")
	t.Site("oak-hill").Enquiry("stored")
	return t
}

// Another program's parser reads the same figures out of the text.
func TestText_IsReadByAnIndependentParser(t *testing.T) {
	t.Parallel()
	parser := expfmt.NewTextParser(model.UTF8Validation)
	families, err := parser.TextToMetricFamilies(strings.NewReader(filled().Text(t.Context())))
	if err != nil {
		t.Fatal(err)
	}
	value := func(name string, labels ...string) float64 {
		t.Helper()
		for _, m := range families[name].GetMetric() {
			got := map[string]string{}
			for _, l := range m.GetLabel() {
				got[l.GetName()] = l.GetValue()
			}
			match := len(got) == len(labels)/2
			for i := 0; i < len(labels); i += 2 {
				match = match && got[labels[i]] == labels[i+1]
			}
			if match {
				return m.GetCounter().GetValue() + m.GetGauge().GetValue()
			}
		}
		t.Errorf("no %s with %v", name, labels)
		return math.NaN()
	}
	for _, c := range []struct {
		want   float64
		name   string
		labels []string
	}{
		{6, "tarnwright_http_requests_total", []string{"route", "GET /{$}", "class", "2xx"}},
		{1, "tarnwright_http_requests_total", []string{"route", "POST /api/v1/leads", "class", "5xx"}},
		{1, "tarnwright_http_requests_total", []string{"route", "POST /api/v1/leads", "class", "none"}},
		{1, "tarnwright_http_requests_total", []string{"route", "a \"route\" \\ with\nall?", "class", "4xx"}},
		{2, "tarnwright_enquiries_total", []string{"site", "main", "outcome", "stored"}},
		{1, "tarnwright_enquiries_total", []string{"site", "main", "outcome", "put_aside"}},
		{1, "tarnwright_enquiries_total", []string{"site", "oak-hill", "outcome", "stored"}},
		{1, "tarnwright_store_ready", []string{"site", "main"}},
		{0, "tarnwright_store_ready", []string{"site", "oak-hill"}},
		{3, "tarnwright_messages", []string{"site", "main", "state", "waiting"}},
		{1, "tarnwright_messages", []string{"site", "main", "state", "dead"}},
		{90, "tarnwright_message_oldest_seconds", []string{"site", "main"}},
		{1_800_000_000.5, "tarnwright_start_time_seconds", nil},
	} {
		if got := value(c.name, c.labels...); got != c.want {
			t.Errorf("%s %v is %g, want %g", c.name, c.labels, got, c.want)
		}
	}
	for _, m := range families["tarnwright_http_request_seconds"].GetMetric() {
		if m.GetLabel()[0].GetValue() != "GET /{$}" {
			continue
		}
		h := m.GetHistogram()
		below := map[float64]uint64{}
		for _, b := range h.GetBucket() {
			below[b.GetUpperBound()] = b.GetCumulativeCount()
		}
		if h.GetSampleCount() != 6 || math.Abs(h.GetSampleSum()-60.31) > 1e-9 || below[0.001] != 2 || below[0.01] != 4 || below[1] != 5 || below[20] != 5 || below[math.Inf(1)] != 6 {
			t.Errorf("the histogram is %v", h)
		}
	}
}

func TestHandler_AnswersAtOneAddressOnly(t *testing.T) {
	t.Parallel()
	h := filled().Handler()
	for path, want := range map[string]int{"/metrics": 200, "/": 404, "/metrics/x": 404} {
		w := httptest.NewRecorder()
		h.ServeHTTP(w, httptest.NewRequest(http.MethodGet, path, nil))
		if w.Code != want {
			t.Errorf("%s: %d, want %d", path, w.Code, want)
		}
		if want == 200 && w.Header().Get("Content-Type") != "text/plain; version=0.0.4; charset=utf-8" {
			t.Errorf("type %q", w.Header().Get("Content-Type"))
		}
	}
}

func TestTally_CountsFromManyAtOnce(t *testing.T) {
	t.Parallel()
	c := tally.New(time.Time{}, func(context.Context) []tally.State { return nil })
	var all sync.WaitGroup
	for range 8 {
		all.Go(func() {
			for range 500 {
				c.Site("main").Answered("GET /{$}", 200, time.Millisecond)
				c.Site("main").Enquiry("stored")
				if strings.Contains(c.Text(t.Context()), "NaN") {
					t.Error("NaN")
				}
			}
		})
	}
	all.Wait()
	if text := c.Text(t.Context()); !strings.Contains(text, `{site="main",outcome="stored"} 4000`) || !strings.Contains(text, `tarnwright_http_request_seconds_count{route="GET /{$}"} 4000`) {
		t.Errorf("counted\n%s", text)
	}
}
