using System.Collections.Immutable;
using System.IO;
using System.IO.Compression;
using System.Text.Json.Nodes;
using Aslaid.Workbench;

namespace Aslaid.Tests;

/// <summary>What somebody may do to a package, and what verify says of it.</summary>
public sealed class PackageTamperTests
{
    [Fact]
    public void Verify_LinkToAFileAdded_IsReported()
    {
        using var folder = HandedOver("package");
        File.CreateSymbolicLink(folder["package/extra.csv"], folder["package/runs.csv"]);
        Assert.Equal(["extra.csv is a link; a package holds none."], Problems(folder["package"]));
    }

    [Fact]
    public void Verify_LinkToAFolderAdded_IsReportedAndNotFollowed()
    {
        using var folder = HandedOver("package");
        Directory.CreateSymbolicLink(folder["package/taken/round"], folder["package"]);
        Assert.Equal(["taken/round is a link; a package holds none."], Problems(folder["package"]));
    }

    [Fact]
    public void Verify_FileReplacedByALinkToTheSameBytes_IsReported()
    {
        using var folder = HandedOver("package");
        File.Move(folder["package/runs.csv"], folder["elsewhere.csv"]);
        File.CreateSymbolicLink(folder["package/runs.csv"], folder["elsewhere.csv"]);
        Assert.Equal(["runs.csv is a link; a package holds none.", "runs.csv is missing."], Problems(folder["package"]));
    }

    [Fact]
    public void Verify_HiddenFileAdded_IsReported()
    {
        using var folder = HandedOver("package");
        folder.Write("package/.hidden", "x");
        Assert.Equal([".hidden is not in the manifest."], Problems(folder["package"]));
    }

    [Fact]
    public void Verify_ZipFolderEntryWithContent_IsReported()
    {
        using var folder = HandedOver("package.zip");
        using (var zip = ZipFile.Open(folder["package.zip"], ZipArchiveMode.Update))
        {
            zip.CreateEntry("plain/"); // other programs write these; empty, they say nothing
            using var content = zip.CreateEntry("taken/").Open();
            content.Write("hidden"u8);
        }

        Assert.Equal(["taken/ is called a folder, but has content."], Problems(folder["package.zip"]));
    }

    [Fact]
    public void Verify_ZipLinkAdded_IsReported()
    {
        using var folder = HandedOver("package.zip");
        using (var zip = ZipFile.Open(folder["package.zip"], ZipArchiveMode.Update))
        {
            var link = zip.CreateEntry("extra.csv");
            link.ExternalAttributes = unchecked((int)0xA1FF0000); // a Unix link, as archivers keep it
        }

        Assert.Equal(["extra.csv is a link; a package holds none."], Problems(folder["package.zip"]));
    }

    [Theory]
    [InlineData("'../evil' in the manifest points outside the package.", "../evil")]
    [InlineData("'/evil' in the manifest points outside the package.", "/evil")]
    [InlineData("runs.csv stands in the manifest 2 times.", "runs.csv")]
    public void Verify_NameAddedToTheManifest_IsReported(string says, string name)
    {
        using var folder = HandedOver("package");
        Edit(folder, manifest =>
        {
            var copy = manifest["files"]!.AsArray().Single(file => (string?)file!["name"] == "runs.csv")!.DeepClone();
            copy["name"] = name;
            manifest["files"]!.AsArray().Add(copy);
        });
        Assert.Equal([says], Problems(folder["package"]));
    }

    [Theory]
    [InlineData(-1)]
    [InlineData(1)]
    public void Verify_OtherNumberOfEntries_IsReported(int more)
    {
        using var folder = HandedOver("package");
        var count = 0;
        Edit(folder, manifest =>
        {
            count = (int)manifest["journal"]!;
            manifest["journal"] = count + more;
        });
        Assert.Equal([$"journal.jsonl has {count} entries; the manifest says {count + more}."], Problems(folder["package"]));
    }

    [Theory]
    [InlineData("project", "project")]
    [InlineData("head", "head")]
    [InlineData("prepared_by", "prepared_by")]
    [InlineData("program", "program")]
    [InlineData("files", "files")]
    [InlineData("cautions", "cautions")]
    [InlineData("files/0", "a file in its list")]
    [InlineData("files/0/name", "the name of a file")]
    [InlineData("files/0/sha256", "the hash of")]
    public void Verify_ManifestWithANull_IsRefusedPlainly(string what, string says)
    {
        using var folder = HandedOver("package");
        Edit(folder, manifest =>
        {
            var path = what.Split('/');
            JsonNode at = manifest;
            foreach (var step in path[..^1]) at = step == "0" ? at[0]! : at[step]!;
            if (path[^1] == "0") at[0] = null;
            else at[path[^1]] = null;
        });
        var verify = CommandLine.Run("verify", folder["package"]);
        Assert.Equal(2, verify.Exit);
        Assert.StartsWith("manifest.json ", verify.Error, StringComparison.Ordinal);
        Assert.True(verify.Error.Contains(says, StringComparison.Ordinal) || verify.Error.Contains("is not the JSON of a manifest", StringComparison.Ordinal), verify.Error);
        Assert.Single(verify.Error.TrimEnd('\n').Split('\n'));
    }

    [Fact]
    public void Verify_ManifestWithAPropertyTwice_IsRefused()
    {
        using var folder = HandedOver("package");
        var text = File.ReadAllText(folder["package/manifest.json"]);
        folder.Write("package/manifest.json", text.Replace("\"project\":", "\"project\": \"Other\", \"project\":", StringComparison.Ordinal));
        Assert.Contains("not the JSON of a manifest", Assert.Throws<ProjectException>(() => PackageVerifier.Verify(folder["package"])).Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("package")]
    [InlineData("package.zip")]
    public void Handover_FileOfAVeryLongName_IsWrittenAndProven(string package)
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        var name = new string('a', 206) + ".csv";
        CommandLine.Fine("take", folder["site.gpkg"], folder.Write(name, "id,east,north,height,code\nZ1,512900,6243900,100,GROUND\n"));
        CommandLine.Fine("handover", folder["site.gpkg"], "--out", folder[package], "--by", "Tester");
        var verdict = PackageVerifier.Verify(folder[package]);
        Assert.Empty(verdict.Problems);
        Assert.Contains(verdict.Manifest.Files, file => file.Name.EndsWith("-" + new string('a', 96) + ".csv", StringComparison.Ordinal));
    }

    [Fact]
    public void Handover_PartOfAnEarlierCrash_DoesNotStandInTheWay()
    {
        using var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        folder.Write("package.zip.part", "left behind");
        CommandLine.Fine("handover", folder["site.gpkg"], "--out", folder["package.zip"], "--by", "Tester");
        Assert.Empty(Problems(folder["package.zip"]));
        Assert.Equal(["package.zip", "package.zip.part", "site.gpkg"], Directory.EnumerateFileSystemEntries(folder.Root).Select(System.IO.Path.GetFileName).Order(StringComparer.Ordinal));
    }

    private static TempFolder HandedOver(string package)
    {
        var folder = new TempFolder();
        TrenchSampleTests.Take(folder["site.gpkg"]);
        CommandLine.Fine("handover", folder["site.gpkg"], "--out", folder[package], "--by", "Tester");
        Assert.Empty(Problems(folder[package]));
        return folder;
    }

    private static ImmutableArray<string> Problems(string package) => PackageVerifier.Verify(package).Problems;

    private static void Edit(TempFolder folder, Action<JsonNode> edit)
    {
        var manifest = JsonNode.Parse(File.ReadAllBytes(folder["package/manifest.json"]))!;
        edit(manifest);
        folder.Write("package/manifest.json", manifest.ToJsonString());
    }
}
