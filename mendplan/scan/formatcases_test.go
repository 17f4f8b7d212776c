package scan_test

// The kinds of file tried, written by libtiff's and ImageMagick's tools.
var formatCases = []formatCase{
	// TIFF, uncompressed: kinds of sample.
	{"tif RGB 8", "rgb", sh("convert IN -type TrueColor -compress None OUT"), "rgb", 0, "TIFF, RGB, 08, none", ""},
	{"tif RGB 16", "rgb", sh("convert IN -type TrueColor -depth 16 -compress None OUT"), "rgb", 0, "TIFF, RGB, 16, none", ""},
	{"tif RGB 12", "rgb", sh("convert IN -type TrueColor -depth 12 -compress None OUT"), "rgb", 1, "TIFF, RGB, 12, none", ""},
	{"tif RGB 4", "rgb", sh("convert IN -type TrueColor -depth 4 -compress None OUT"), "rgb", 17, "TIFF, RGB, 04, none", ""},
	{"tif RGB alpha", "alpha", sh("convert IN -type TrueColorAlpha -compress None OUT"), "alpha", 1, "TIFF, RGB with alpha, 08, none", ""},
	{"tif RGB alpha associated", "alpha", sh("convert IN -type TrueColorAlpha -define tiff:alpha=associated -compress None OUT"), "alpha", 1, "TIFF, RGB with alpha, 08, none", ""},
	{"tif grey 8", "grey", sh("convert IN -type Grayscale -compress None OUT"), "grey", 0, "TIFF, grey, 08, none", ""},
	{"tif grey 16", "grey", sh("convert IN -type Grayscale -depth 16 -compress None OUT"), "grey", 0, "TIFF, grey, 16, none", ""},
	{"tif grey 4", "grey", sh("convert IN -type Grayscale -depth 4 -compress None OUT"), "grey", 17, "TIFF, grey, 04, none", ""},
	{"tif grey 2", "grey", sh("convert IN -type Grayscale -depth 2 -compress None OUT"), "grey", 85, "TIFF, grey, 02, none", ""},
	{"tif grey min is white", "grey", sh("convert IN -negate -type Grayscale -define quantum:polarity=min-is-white -compress None OUT"), "grey", 0, "TIFF, grey, 08, none", ""},
	{"tif grey alpha", "greyalpha", sh("convert IN -type GrayscaleAlpha -compress None OUT"), "greyalpha", 1, "TIFF, grey with alpha, 08, none", ""},
	{"tif bilevel", "bw", bilevel("-c none"), "bw", 0, "TIFF, grey, 01, none", ""},
	{"tif palette 8", "grey", sh("convert IN -type Palette -compress None OUT"), "grey", 8, "TIFF, palette, 08, none", ""},
	{"tif palette 1", "bw", sh("convert IN -type Palette -colors 2 -depth 4 -compress None OUT"), "bw", 0, "TIFF, palette, 01, none", ""},
	{"tif CMYK", "rgb", sh("convert IN -colorspace CMYK -compress None OUT"), "rgb", 2, "TIFF, CMYK, 08, none", ""},
	{"tif CMYK 16", "rgb", sh("convert IN -colorspace CMYK -depth 16 -compress None OUT"), "rgb", 2, "TIFF, CMYK, 16, none", ""},
	{"tif YCbCr", "rgb", sh("convert IN -colorspace YCbCr -compress None OUT"), "rgb", 2, "TIFF, YCbCr, 08, none", ""},
	{"tif Lab", "rgb", sh("convert IN -colorspace Lab -compress None OUT"), "rgb", 24, "TIFF, CIELAB, 08, none", ""},
	{"tif Lab 16", "rgb", sh("convert IN -colorspace Lab -depth 16 -compress None OUT"), "rgb", 3, "TIFF, CIELAB, 16, none", ""},
	{"tif float", "rgb", sh("convert IN -depth 32 -define quantum:format=floating-point OUT"), "rgb", 0, "", "floating-point samples"},
	{"tif RGB 32", "rgb", sh("convert IN -type TrueColor -depth 32 OUT"), "rgb", 0, "", "32 bits per sample"},

	// TIFF: compressions, strips, tiles, planes, byte orders.
	{"tif LZW", "rgb", tiffcp("-c lzw"), "rgb", 0, "TIFF, RGB, 08, LZW", ""},
	{"tif LZW predictor", "rgb", tiffcp("-c lzw:2 -r 7"), "rgb", 0, "TIFF, RGB, 08, LZW", ""},
	{"tif LZW predictor 16", "rgb", sh("convert IN -type TrueColor -depth 16 -compress None TMP", "tiffcp -c lzw:2 TMP OUT"), "rgb", 0, "TIFF, RGB, 16, LZW", ""},
	{"tif LZW predictor 16 big-endian", "rgb", sh("convert IN -type TrueColor -depth 16 -compress None TMP", "tiffcp -B -c lzw:2 TMP OUT"), "rgb", 0, "TIFF, RGB, 16, LZW", ""},
	{"tif Deflate", "rgb", tiffcp("-c zip"), "rgb", 0, "TIFF, RGB, 08, Deflate", ""},
	{"tif Deflate predictor tiles", "rgb", tiffcp("-c zip:2 -t -w 16 -l 32"), "rgb", 0, "TIFF, RGB, 08, Deflate", ""},
	{"tif PackBits", "rgb", tiffcp("-c packbits"), "rgb", 0, "TIFF, RGB, 08, PackBits", ""},
	{"tif PackBits bilevel", "bw", bilevel("-c packbits"), "bw", 0, "TIFF, grey, 01, PackBits", ""},
	{"tif tiles", "rgb", tiffcp("-t -w 32 -l 16 -c none"), "rgb", 0, "TIFF, RGB, 08, none", ""},
	{"tif planes", "rgb", tiffcp("-p separate -c none -r 5"), "rgb", 0, "TIFF, RGB, 08, none", ""},
	{"tif planes tiles LZW", "rgb", tiffcp("-p separate -c lzw:2 -t -w 16 -l 16"), "rgb", 0, "TIFF, RGB, 08, LZW", ""},
	{"tif planes 16 big-endian", "rgb", sh("convert IN -type TrueColor -depth 16 -endian MSB -interlace Plane -compress Zip OUT"), "rgb", 0, "TIFF, RGB, 16, Deflate", ""},
	{"tif planes 12", "rgb", sh("convert IN -type TrueColor -depth 12 -interlace Plane -compress None OUT"), "rgb", 1, "TIFF, RGB, 12, none", ""},
	{"tif big-endian", "rgb", tiffcp("-B -c none"), "rgb", 0, "TIFF, RGB, 08, none", ""},
	{"bigtiff LZW", "rgb", tiffcp("-8 -c lzw:2"), "rgb", 0, "BigTIFF, RGB, 08, LZW", ""},
	{"bigtiff big-endian tiles", "rgb", tiffcp("-8 -B -t -w 16 -l 16 -c zip"), "rgb", 0, "BigTIFF, RGB, 08, Deflate", ""},
	{"tif lsb2msb bilevel", "bw", bilevel("-c packbits -f lsb2msb"), "bw", 0, "TIFF, grey, 01, PackBits", ""},

	// TIFF: fax.
	{"tif Group 3", "bw", bilevel("-c g3:1d"), "bw", 0, "TIFF, grey, 01, CCITT Group 3", ""},
	{"tif Group 3 fill", "bw", bilevel("-c g3:1d:fill"), "bw", 0, "TIFF, grey, 01, CCITT Group 3", ""},
	{"tif Group 3 2D", "bw", bilevel("-c g3:2d"), "bw", 0, "TIFF, grey, 01, CCITT Group 3", ""},
	{"tif Group 3 2D fill strips", "bw", bilevel("-c g3:2d:fill -r 9"), "bw", 0, "TIFF, grey, 01, CCITT Group 3", ""},
	{"tif Group 4", "bw", bilevel("-c g4"), "bw", 0, "TIFF, grey, 01, CCITT Group 4", ""},
	{"tif Group 4 strips lsb2msb", "bw", bilevel("-c g4 -r 10 -f lsb2msb"), "bw", 0, "TIFF, grey, 01, CCITT Group 4", ""},
	{"tif Group 4 min is black", "bw", sh("convert IN -type Bilevel -define quantum:polarity=min-is-black -compress Group4 OUT"), "bw", 0, "TIFF, grey, 01, CCITT Group 4", ""},
	{"tif Group 4 tiles", "bw", bilevel("-c g4 -t -w 32 -l 32"), "bw", 0, "TIFF, grey, 01, CCITT Group 4", ""},

	// TIFF: JPEG inside.
	{"tif JPEG YCbCr", "rgb", tiffcp("-c jpeg:95"), "rgb", 14, "TIFF, YCbCr, 08, JPEG", ""},
	{"tif JPEG YCbCr tiles", "rgb", tiffcp("-c jpeg:95 -t -w 32 -l 32"), "rgb", 80, // its black padding bleeds in
		"TIFF, YCbCr, 08, JPEG", ""},
	{"tif JPEG RGB", "rgb", tiffcp("-c jpeg:r:95 -r 16"), "rgb", 5, "TIFF, RGB, 08, JPEG", ""},
	{"tif JPEG grey", "grey", sh("convert IN -type Grayscale -compress None TMP", "tiffcp -c jpeg:95 TMP OUT"), "grey", 5, "TIFF, grey, 08, JPEG", ""},
	{"tif JPEG CMYK", "rgb", sh("convert IN -colorspace CMYK -compress None TMP", "tiffcp -c jpeg:95 -r 16 TMP OUT"), "rgb", 9, "TIFF, CMYK, 08, JPEG", ""},
	{"tif JPEG planes", "rgb", tiffcp("-c jpeg:r:95 -p separate"), "rgb", 5, "TIFF, RGB, 08, JPEG", ""},

	// TIFF: not read.
	{"tif LZMA", "rgb", tiffcp("-c lzma"), "rgb", 0, "", "LZMA compression is not read"},
	{"tif Zstandard", "rgb", tiffcp("-c zstd"), "rgb", 0, "", "Zstandard compression is not read"},

	// JPEG.
	{"jpg baseline 420", "rgb", sh("convert IN -type TrueColor -quality 95 -sampling-factor 2x2 OUT"), "rgb", 14, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg baseline 444", "rgb", sh("convert IN -type TrueColor -quality 95 -sampling-factor 1x1 OUT"), "rgb", 6, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg baseline 422", "rgb", sh("convert IN -type TrueColor -quality 95 -sampling-factor 2x1 OUT"), "rgb", 14, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg baseline 440", "rgb", sh("convert IN -type TrueColor -quality 95 -sampling-factor 1x2 OUT"), "rgb", 14, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg baseline 411", "rgb", sh("convert IN -type TrueColor -quality 95 -sampling-factor 4x1 OUT"), "rgb", 20, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg progressive", "rgb", sh("convert IN -type TrueColor -quality 95 -interlace JPEG OUT"), "rgb", 14, "JPEG, YCbCr, 08, progressive", ""},
	{"jpg grey", "grey", sh("convert IN -type Grayscale -quality 95 OUT"), "grey", 5, "JPEG, grey, 08, baseline", ""},
	{"jpg grey progressive", "grey", sh("convert IN -type Grayscale -quality 95 -interlace JPEG OUT"), "grey", 5, "JPEG, grey, 08, progressive", ""},
	{"jpg YCCK", "rgb", sh("convert IN -colorspace CMYK -quality 95 OUT"), "rgb", 9, "JPEG, YCCK, 08, baseline", ""},

	// PNG.
	{"png RGB 8", "rgb", sh("convert IN png24:OUT"), "rgb", 0, "PNG, RGB, 08, Deflate", ""},
	{"png RGB 16", "rgb", sh("convert IN png48:OUT"), "rgb", 0, "PNG, RGB, 16, Deflate", ""},
	{"png RGB interlaced", "rgb", sh("convert IN -interlace PNG png24:OUT"), "rgb", 0, "PNG, RGB, 08, Deflate, interlaced", ""},
	{"png grey 8", "grey", sh("convert IN -define png:color-type=0 -define png:bit-depth=8 OUT"), "grey", 0, "PNG, grey, 08, Deflate", ""},
	{"png grey 16", "grey", sh("convert IN -define png:color-type=0 -define png:bit-depth=16 OUT"), "grey", 0, "PNG, grey, 16, Deflate", ""},
	{"png grey 4", "grey", sh("convert IN -depth 4 -define png:color-type=0 -define png:bit-depth=4 OUT"), "grey", 17, "PNG, grey, 04, Deflate", ""},
	{"png grey 2", "grey", sh("convert IN -depth 2 -define png:color-type=0 -define png:bit-depth=2 OUT"), "grey", 85, "PNG, grey, 02, Deflate", ""},
	{"png grey 1", "bw", sh("convert IN -define png:color-type=0 -define png:bit-depth=1 OUT"), "bw", 0, "PNG, grey, 01, Deflate", ""},
	{"png palette 8", "grey", sh("convert IN -type Palette -define png:color-type=3 -define png:bit-depth=8 OUT"), "grey", 8, "PNG, palette, 08, Deflate", ""},
	{"png palette 1 interlaced", "bw", sh("convert IN -interlace PNG -define png:color-type=3 -define png:bit-depth=1 OUT"), "bw", 0, "PNG, palette, 01, Deflate, interlaced", ""},
	{"png alpha", "alpha", sh("convert IN png32:OUT"), "alpha", 1, "PNG, RGB with alpha, 08, Deflate", ""},
	{"png alpha 16", "alpha", sh("convert IN png64:OUT"), "alpha", 1, "PNG, RGB with alpha, 16, Deflate", ""},
	{"png grey alpha", "greyalpha", sh("convert IN -define png:color-type=4 -define png:bit-depth=8 OUT"), "greyalpha", 1, "PNG, grey with alpha, 08, Deflate", ""},

	// BMP and WebP.
	{"bmp 24", "rgb", sh("convert IN -type TrueColor -compress None bmp3:OUT"), "rgb", 0, "BMP, RGB, 08, none", ""},
	{"bmp 32", "rgb", sh("convert IN -type TrueColorAlpha -compress None OUT"), "rgb", 0, "BMP, RGB, 08, none", ""},
	{"bmp 8", "grey", sh("convert IN -type Palette -compress None bmp3:OUT"), "grey", 8, "BMP, palette, 08, none", ""},
	{"bmp 8 run-length", "bw", sh("convert IN -colors 4 -depth 8 -type Palette -compress RLE bmp3:OUT"), "bw", 0, "", "run-length packed BMP"},
	{"bmp 1", "bw", sh("convert IN -type Bilevel -compress None bmp3:OUT"), "bw", 0, "BMP, palette, 08, none", ""},
	{"webp lossy", "rgb", sh("convert IN -quality 95 OUT"), "rgb", 24, "WebP, YCbCr, 08, lossy", ""},
	{"webp lossless", "rgb", sh("convert IN -define webp:lossless=true OUT"), "rgb", 0, "WebP, RGB, 08, lossless", ""},
	{"webp lossless alpha", "alpha", sh("convert IN -define webp:lossless=true -define webp:exact=true OUT"), "alpha", 1, "WebP, RGB, 08, lossless", ""},

	// Colour profiles: values are brought into the profile's space by another
	// engine, and must come back; 8 bits of the wider space are worth 3 of sRGB.
	{"png profile wide", "rgb", sh("convert IN -type TrueColor -profile SRGB -profile WIDE png24:OUT"), "rgb", 3, "PNG, RGB, 08, Deflate", ""},
	{"png profile wide 16", "rgb", sh("convert IN -type TrueColor -profile SRGB -profile WIDE png48:OUT"), "rgb", 3, "PNG, RGB, 16, Deflate", ""},
	{"tif profile wide", "rgb", sh("convert IN -type TrueColor -profile SRGB -profile WIDE -compress LZW OUT"), "rgb", 3, "TIFF, RGB, 08, LZW", ""},
	{"jpg profile wide", "rgb", sh("convert IN -type TrueColor -profile SRGB -profile WIDE -quality 97 -sampling-factor 1x1 OUT"), "rgb", 9, "JPEG, YCbCr, 08, baseline", ""},
	{"jpg profile sRGB", "rgb", sh("convert IN -type TrueColor -profile SRGB -quality 97 -sampling-factor 1x1 OUT"), "rgb", 6, "JPEG, YCbCr, 08, baseline", ""},
	{"tif profile grey", "grey", sh("convert IN -profile SRGB -profile LIGHT -compress LZW OUT"), "grey", 2, "TIFF, grey, 08, LZW", ""},

	// Known by their first bytes, not read.
	{"gif", "bw", sh("convert IN OUT"), "bw", 0, "", "GIF pictures are not read"},
	{"psd", "rgb", sh("convert IN OUT"), "rgb", 0, "", "PSD files are not read"},
	{"jp2", "rgb", sh("convert IN OUT"), "rgb", 0, "", "JPEG 2000 pictures are not read"},
	{"heic", "rgb", sh("convert IN OUT"), "rgb", 0, "", "HEIC pictures are not read"},
	{"ppm", "rgb", sh("convert IN OUT"), "rgb", 0, "", "PNM pictures are not read"},
	{"pcx", "rgb", sh("convert IN OUT"), "rgb", 0, "", "PCX pictures are not read"},
}

func sh(commands ...string) []string { return commands }

// tiffcp makes an RGB TIFF and has libtiff write it with the given options.
func tiffcp(options string) []string {
	return sh("convert IN -type TrueColor -compress None TMP", "tiffcp "+options+" TMP OUT")
}

// bilevel does so with a black-and-white one.
func bilevel(options string) []string {
	return sh("convert IN -type Bilevel -compress Group4 TMP", "tiffcp "+options+" TMP OUT")
}
