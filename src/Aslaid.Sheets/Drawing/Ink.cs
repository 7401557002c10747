using SkiaSharp;

namespace Aslaid.Sheets;

/// <summary>Colours on white paper. Lines speak services, fills speak verdicts; each also differs in shape or word.</summary>
internal static class Ink
{
    public static readonly SKColor Black = new(0, 0, 0);
    public static readonly SKColor Second = new(0x44, 0x44, 0x44);
    public static readonly SKColor Grid = new(0x8A, 0x8A, 0x8A);
    public static readonly SKColor White = new(0xFF, 0xFF, 0xFF);
    public static readonly SKColor Band = new(0xCF, 0xD2, 0xD1);
    public static readonly SKColor Bad = new(0xA3, 0x0D, 0x45);
    public static readonly SKColor Doubt = new(0xF2, 0xB6, 0x3C);
    public static readonly SKColor GoodSoft = new(0xCD, 0xE8, 0xDE);
    public static readonly SKColor Covered = new(0x45, 0x59, 0x5B);

    /// <summary>A colour word of the code book (APWA Uniform Color Code words first) as a tone that stands 4.5 to 1 or better
    /// against paper; yellow and white cannot, and are drawn with a keyline.</summary>
    public static SKColor Of(string? word) => word switch
    {
        "red" => new(0xC4, 0x16, 0x1C),
        "orange" => new(0xB8, 0x54, 0x00),
        "yellow" => new(0xF2, 0xC4, 0x00),
        "blue" => new(0x0B, 0x5F, 0xB0),
        "purple" => new(0x6A, 0x2C, 0x91),
        "green" => new(0x2E, 0x7D, 0x1E),
        "pink" => new(0xB8, 0x3B, 0x86),
        "brown" => new(0x7A, 0x4A, 0x1E),
        "grey" => new(0x3B, 0x4A, 0x4B),
        "white" => White,
        _ => Black,
    };

    /// <summary>Whether a colour is too pale for paper and needs an ink edge.</summary>
    public static bool NeedsKeyline(string? word) => word is "yellow" or "white";
}

/// <summary>Line widths in millimetres (series of ISO 128).</summary>
internal static class Weight
{
    public const float Frame = 0.7f;
    public const float Strong = 0.5f;
    public const float Medium = 0.35f;
    public const float Thin = 0.25f;
    public const float Fine = 0.18f;
    public const float Hair = 0.13f;
}

/// <summary>Type sizes in millimetres (of the font, whose capitals stand 0.67 of it).</summary>
internal static class TypeSize
{
    public const float Small = 2.2f;
    public const float Data = 2.6f;
    public const float Name = 3.4f;
    public const float Title = 4.6f;
    public const float Answer = 6f;
}
