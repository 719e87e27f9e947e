package main

// licences of the modules that are built in, by module path, as SPDX expressions read off each module's own licence files. A module
// without a row here fails a test, and so does a row without a module.
var licences = map[string]string{
	"codeberg.org/go-pdf/fpdf":                      "MIT",
	"github.com/bojanz/currency":                    "MIT",
	"github.com/boombuler/barcode":                  "MIT",
	"github.com/cockroachdb/apd/v3":                 "Apache-2.0",
	"github.com/dustin/go-humanize":                 "MIT",
	"github.com/fatih/color":                        "MIT",
	"github.com/fsnotify/fsnotify":                  "BSD-3-Clause",
	"github.com/go-fonts/liberation":                "BSD-3-Clause AND OFL-1.1", // the fonts themselves are OFL-1.1
	"github.com/go-viper/mapstructure/v2":           "MIT",
	"github.com/golang/protobuf":                    "BSD-3-Clause",
	"github.com/google/uuid":                        "BSD-3-Clause",
	"github.com/hashicorp/go-hclog":                 "MIT",
	"github.com/hashicorp/go-plugin":                "MPL-2.0",
	"github.com/hashicorp/yamux":                    "MPL-2.0",
	"github.com/landlock-lsm/go-landlock":           "MIT",
	"github.com/mattn/go-colorable":                 "MIT",
	"github.com/mattn/go-isatty":                    "MIT",
	"github.com/mfridman/interpolate":               "MIT",
	"github.com/oklog/run":                          "Apache-2.0",
	"github.com/pelletier/go-toml/v2":               "MIT",
	"github.com/planetscale/vtprotobuf":             "BSD-3-Clause",
	"github.com/pressly/goose/v3":                   "MIT",
	"github.com/remyoudompheng/bigfft":              "BSD-3-Clause",
	"github.com/sagikazarmark/locafero":             "MIT",
	"github.com/sethvargo/go-retry":                 "Apache-2.0",
	"github.com/sourcegraph/conc":                   "MIT",
	"github.com/spf13/afero":                        "Apache-2.0",
	"github.com/spf13/cast":                         "MIT",
	"github.com/spf13/cobra":                        "Apache-2.0",
	"github.com/spf13/pflag":                        "BSD-3-Clause",
	"github.com/spf13/viper":                        "MIT",
	"github.com/subosito/gotenv":                    "MIT",
	"go.uber.org/multierr":                          "MIT",
	"go.yaml.in/yaml/v3":                            "MIT AND Apache-2.0",
	"golang.org/x/net":                              "BSD-3-Clause",
	"golang.org/x/sync":                             "BSD-3-Clause",
	"golang.org/x/sys":                              "BSD-3-Clause",
	"golang.org/x/term":                             "BSD-3-Clause",
	"golang.org/x/text":                             "BSD-3-Clause",
	"golang.org/x/time":                             "BSD-3-Clause",
	"gonum.org/v1/gonum":                            "BSD-3-Clause",
	"google.golang.org/genproto/googleapis/rpc":     "Apache-2.0",
	"google.golang.org/grpc":                        "Apache-2.0",
	"google.golang.org/protobuf":                    "BSD-3-Clause",
	"kernel.org/pub/linux/libs/security/libcap/psx": "BSD-3-Clause OR GPL-2.0-only",
	"modernc.org/libc":                              "BSD-3-Clause AND MIT", // with code ported from musl
	"modernc.org/mathutil":                          "BSD-3-Clause",
	"modernc.org/memory":                            "BSD-3-Clause",
	"modernc.org/sqlite":                            "BSD-3-Clause AND blessing", // SQLite itself is in the public domain
}

// scripts are those of others that the pages bring, each beside its licence in core/web/static.
var scripts = []moduleJSON{{"htmx.js", "4.0.1", "0BSD"}, {"qr.js", "0.7.0", "Apache-2.0"}}
