namespace Aslaid.Exchange;

/// <summary>Names of tables and columns.</summary>
internal static class GeoPackageNames
{
    /// <summary>As SQL writes it, whatever it holds.</summary>
    public static string Quote(string name) => '"' + name.Replace("\"", "\"\"", StringComparison.Ordinal) + '"';

    /// <summary>As an SQL text literal.</summary>
    public static string Literal(string text) => '\'' + text.Replace("'", "''", StringComparison.Ordinal) + '\'';

    /// <summary>Refuses a name that other programs would have to quote.</summary>
    public static string Plain(string name, string parameter)
    {
        var good = name is [>= 'a' and <= 'z', ..] && name.All(c => c is (>= 'a' and <= 'z') or (>= '0' and <= '9') or '_');
        return good ? name : throw new ArgumentException($"\"{name}\" does not serve as a name: a small letter, then small letters, digits and underscores.", parameter);
    }
}
