using System.IO;
using Aslaid.Exchange;

namespace Aslaid.Tests;

/// <summary>When a file or a word is not what it should be, the person reads sentences, not those of the library below.</summary>
public sealed class PlainMessageTests
{
    /// <summary>Phrases of the library.</summary>
    private static readonly string[] Foreign = ["Could not find", "Access to the path", "(Parameter", "End of Central Directory", "Path: $"];

    [Theory]
    [InlineData("no such file", "control", "{site}", "{nowhere.csv}")]
    [InlineData("it is a folder", "control", "{site}", "{folder}")]
    [InlineData("there is no folder", "codes", "{site}", "{none/codes.csv}")]
    [InlineData("no such file", "take", "{site}", "{nowhere.csv}")]
    [InlineData("it is a folder", "take", "{site}", "{folder}")]
    [InlineData("no such file", "new", "{other.gpkg}", "--codes", "{nowhere.csv}")]
    [InlineData("there is no folder", "visit", "{site}", "--out", "{none/visit.csv}")]
    [InlineData("it is a folder", "visit", "{site}", "--out", "{folder}")]
    [InlineData("is a folder", "check", "{folder}")]
    [InlineData("is a file", "demo", "--out", "{site}")]
    [InlineData("could not be made", "demo", "--out", "{text.zip/demo}")]
    [InlineData("neither a folder nor a whole ZIP", "verify", "{text.zip}")]
    [InlineData("not the JSON of a manifest", "verify", "{folder}")]
    [InlineData("write EPSG:25832", "new", "{other.gpkg}", "--crs", "25832")]
    [InlineData("expected EPSG:32601", "new", "{other.gpkg}", "--crs", "EPSG:99999")]
    [InlineData("cannot be used", "new", "{other.gpkg}", "--crs", "PROJCS[]")]
    public void Run_WhatIsNotThereOrOfAnotherKind_SaysSoInPlainWords(string says, params string[] line)
    {
        using var folder = new TempFolder();
        CommandLine.Fine("new", folder["site.gpkg"]);
        folder.Write("text.zip", "no zip at all");
        Directory.CreateDirectory(folder["folder"]);
        folder.Write("folder/manifest.json", "no json");
        var run = CommandLine.Run([.. line.Select(word => word.StartsWith('{') ? folder[word == "{site}" ? "site.gpkg" : word[1..^1]] : word)]);
        Assert.Equal(2, run.Exit);
        Assert.Contains(says, run.Error, StringComparison.Ordinal);
        Assert.All(Foreign, phrase => Assert.DoesNotContain(phrase, run.Error, StringComparison.Ordinal));
    }

    [Fact]
    public void Run_ZipCutShort_IsRefusedPlainly()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["trench.gpkg"]);
        CommandLine.Fine("handover", folder["trench.gpkg"], "--out", folder["whole.zip"]);
        var bytes = File.ReadAllBytes(folder["whole.zip"]);
        var verify = CommandLine.Run("verify", folder.Write("part.zip", bytes[..(bytes.Length / 2)]));
        Assert.Equal(2, verify.Exit);
        Assert.Contains("cut short", verify.Error, StringComparison.Ordinal);
    }

    [Fact]
    public void For_BareNumber_TellsHowToWriteIt()
    {
        Assert.False(GridToGeographic.TryFor("32632", out _, out var why));
        Assert.Contains("EPSG:32632", why, StringComparison.Ordinal);
    }
}
