namespace Aslaid.Record;

/// <summary>How it is known who acted.</summary>
public enum ActorProof : byte
{
    /// <summary>A name as typed; nothing proves it.</summary>
    Typed,

    /// <summary>The person had signed in.</summary>
    SignedIn,
}

/// <summary>Who wrote a journal entry.</summary>
public readonly record struct Actor(string Name, ActorProof Proof)
{
    /// <summary>A name as typed.</summary>
    public static Actor Typed(string name) => new(name, ActorProof.Typed);
}
