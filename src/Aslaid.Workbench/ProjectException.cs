namespace Aslaid.Workbench;

/// <summary>Something a person must put right before the work can go on: the message says what was found, what was expected and what to do.</summary>
public sealed class ProjectException : Exception
{
    /// <summary>With its message.</summary>
    public ProjectException(string message) : base(message)
    {
    }

    /// <summary>With its message and what caused it.</summary>
    public ProjectException(string message, Exception inner) : base(message, inner)
    {
    }
}
