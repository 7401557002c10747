using System.IO;
using System.Text;

namespace Aslaid.Workbench;

/// <summary>Files that a person names. What goes wrong is said of the file as it was named: what is there, and what to do.</summary>
public static class NamedFile
{
    /// <summary>All bytes of a file.</summary>
    /// <exception cref="ProjectException">It is not there, is a folder, or cannot be read.</exception>
    public static byte[] Read(string path)
    {
        try
        {
            return File.ReadAllBytes(path);
        }
        catch (Exception wrong) when (IsOfFiles(wrong))
        {
            throw Fault(path, "read", wrong);
        }
    }

    /// <summary>Writes a text as UTF-8, over what was there.</summary>
    /// <exception cref="ProjectException">Its folder is not there, it is a folder itself, or it cannot be written.</exception>
    public static void Write(string path, string text)
    {
        try
        {
            File.WriteAllText(path, text, new UTF8Encoding(false));
        }
        catch (Exception wrong) when (IsOfFiles(wrong))
        {
            throw Fault(path, "written", wrong);
        }
    }

    /// <summary>Makes a folder, and those above it; one that is there may stay.</summary>
    /// <exception cref="ProjectException">It cannot be made.</exception>
    public static void MakeFolder(string path)
    {
        if (File.Exists(path)) throw new ProjectException($"{path} is a file. Name a new folder.");
        try
        {
            Directory.CreateDirectory(path);
        }
        catch (Exception wrong) when (IsOfFiles(wrong))
        {
            throw new ProjectException($"The folder {path} could not be made. Check its name and the rights, or name another place.", wrong);
        }
    }

    /// <summary>Whether an exception speaks of a file or a folder.</summary>
    internal static bool IsOfFiles(Exception wrong) => wrong is IOException or UnauthorizedAccessException;

    /// <summary>The same in plain words.</summary>
    /// <param name="path">As the person named it.</param>
    /// <param name="step">What could not be done to it: read, written, made.</param>
    internal static ProjectException Fault(string path, string step, Exception wrong)
    {
        var folder = System.IO.Path.GetDirectoryName(System.IO.Path.GetFullPath(path));
        var why = wrong switch
        {
            _ when step == "read" && Directory.Exists(path) => "it is a folder. Name a file in it.",
            _ when step == "written" && Directory.Exists(path) && wrong is UnauthorizedAccessException => "it is a folder. Name a file in it, or make the folder writable.",
            _ when folder is not null && !Directory.Exists(folder) => $"there is no folder {folder}. Check the name, or make the folder first.",
            FileNotFoundException or DirectoryNotFoundException => "there is no such file. Check the name and the folder.",
            _ when step == "made" => $"the system lets nothing be made in {folder}. Check rights and free space, or name another place.",
            UnauthorizedAccessException => "this user may not. Ask for the rights, or name another place.",
            _ => wrong.Message, // a full disk, a broken link, a file in use: the system's own words say it best
        };
        return new($"{path} could not be {step}: {why}", wrong);
    }
}
