using Aslaid.Sheets;

namespace Aslaid.Tests;

public sealed class LetteringTests : IDisposable
{
    private readonly Lettering type = new();

    [Fact]
    public void Legible_CharactersThatTheTypeLacks_BecomeQuestionMarks() =>
        Assert.Equal("Pier ?? ± 0.02 m ?", type.Legible("Pier Σж ± 0.02 m →"));

    [Fact]
    public void Legible_WhatSheetsSay_StaysAsItIs() =>
        Assert.Equal("± ° ≤ – … − ² ø é", type.Legible("± ° ≤ – … − ² ø é"));

    [Fact]
    public void Wrap_AnyText_IsNowhereWiderAndLosesNothing() =>
        Gen.Select(Gen.String[Gen.Char["abcdefW  -.0"], 0, 200], Gen.Double[8, 90]).Sample((text, width) =>
        {
            using var own = new Lettering(); // generators run side by side
            var lines = own.Wrap(text, (float)width, TypeSize.Data);
            Assert.All(lines, line => Assert.True(own.Width(line, TypeSize.Data) <= width + 0.01));
            Assert.Equal(text.Replace(" ", "", StringComparison.Ordinal), string.Concat(lines).Replace(" ", "", StringComparison.Ordinal));
        });

    [Fact]
    public void Fit_LongText_IsCutWithAnEllipsis()
    {
        var cut = type.Fit("Gas main, existing, from records only", 20, TypeSize.Data);
        Assert.EndsWith("…", cut, StringComparison.Ordinal);
        Assert.True(type.Width(cut, TypeSize.Data) <= 20);
    }

    public void Dispose() => type.Dispose();
}
