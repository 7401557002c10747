using System.CommandLine;
using Aslaid.Workbench;

namespace Aslaid.Cli.Verbs;

internal static class VerifyVerb
{
    public static Command Make(Shell shell)
    {
        var package = new Argument<string>("PACKAGE") { Description = "A folder or ZIP written by aslaid handover." };
        var verb = new Command("verify", "Prove a package unaltered since its manifest was written.") { package };
        verb.SetAction(parsed =>
        {
            var verdict = PackageVerifier.Verify(parsed.GetValue(package)!);
            foreach (var problem in verdict.Problems) shell.Out.WriteLine(problem);
            if (verdict.Problems.Length > 0)
            {
                shell.Say($"The package is not as its manifest says: {verdict.Problems.Length} differences.");
                return Exit.Holds;
            }

            shell.Say($"Unaltered: {verdict.Manifest.Files.Length} files of {verdict.Manifest.Project}, journal {verdict.Manifest.Journal}, head {verdict.Manifest.Head}.");
            shell.Say($"Manifest SHA-256 {verdict.ManifestSha256}. A package rewritten whole shows only against this or the head kept elsewhere.");
            return Exit.Fine;
        });
        return verb.WithExamples("aslaid verify handover-1", "aslaid verify handover-1.zip");
    }
}
