# Compilers, flags and libraries.  Included by the Makefile.
PACKAGES := libical sqlite3 inih jansson gmime-3.0 nettle uuid libcurl \
	libmicrohttpd pangocairo

WARNINGS := -Wall -Wextra -Wconversion -Wshadow -Werror
CFLAGS ?= -O2 -g
override CFLAGS += -std=c11 $(WARNINGS) $(SANITIZE)
override CPPFLAGS += -D_GNU_SOURCE
# Each program loads only the libraries that it uses.
override LDFLAGS += -Wl,--as-needed $(SANITIZE)
LIBCFLAGS := $(subst -I/,-isystem /,$(shell pkg-config --cflags $(PACKAGES) 2>/dev/null))
LIBS := -Wl,--as-needed $(shell pkg-config --libs $(PACKAGES) 2>/dev/null) -lm
